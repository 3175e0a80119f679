import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { CallResults, Problem } from '../../shared/workbench/contract.ts';
import { ProblemText } from '../board/problem.tsx';
import { usePanel } from '../model/context.ts';
import { Cautions } from '../views/cautions.tsx';
import { Licence } from './licence.tsx';

/** Versions, and whose work is inside under which licence. */
export function AboutSheet() {
  const { model } = usePanel();
  const about = useSignal<CallResults['about'] | null>(null);
  const trouble = useSignal<Problem | null>(null);
  useEffect(() => {
    void model.call('about', {}).then((outcome) => {
      if (outcome.ok) about.value = outcome.value;
      else trouble.value = outcome.problem;
    });
  }, [model, about, trouble]);
  if (trouble.value) return <ProblemText problem={trouble.value} />;
  if (!about.value) return <p role="status">Reading what is inside.</p>;
  const { version, firmware, runtime, licences } = about.value;
  return (
    <div class="about">
      <p class="about-name">Amberwick {version}</p>
      <p>A workbench for working road lights on scale model layouts.</p>
      <Cautions />
      <section aria-label="Versions">
        <h3>Versions</h3>
        <dl class="about-versions">
          {firmware.map((it) => (
            <div key={it.chip}>
              <dt>Firmware for {it.chip}</dt>
              <dd>{it.version}</dd>
            </div>
          ))}
          {runtime.map((it) => (
            <div key={it.name}>
              <dt>{it.name}</dt>
              <dd>{it.version}</dd>
            </div>
          ))}
        </dl>
      </section>
      <section aria-label="Licences">
        <h3>Licences</h3>
        <p>Each name opens the whole text.</p>
        <ul class="about-licences">
          {licences.map((it) => (
            <li key={`${it.name} ${it.version}`}>
              <Licence of={it} />
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}
