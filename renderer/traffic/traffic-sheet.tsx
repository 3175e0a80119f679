import { useSignal } from '@preact/signals';
import type { Layout } from '../../shared/layout/schema.ts';
import type { Junction } from '../../shared/layout/sites.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { applySplit, type Split, splitJunction } from '../../shared/signals/flows/split.ts';
import { timeText } from '../../shared/workbench/words.ts';
import { usePanel } from '../model/context.ts';
import { parseTime } from '../model/time.ts';
import { readFlow, requestOf, vehiclePhases } from './request.ts';

/** Greens of the junction at hand from its traffic. */
export function TrafficSheet() {
  const { model } = usePanel();
  const { layout } = model.open.value;
  const site = layout?.sites.find(({ id }) => id === model.siteAtHand.value?.id);
  if (!layout || site?.kind !== 'junction') return <p>Take a junction in hand: its stages share the cycle.</p>;
  return <Traffic key={site.id} layout={layout} site={site} />;
}

function Traffic({ layout, site }: { readonly layout: Layout; readonly site: Junction }) {
  const { model, surface } = usePanel();
  const typed = useSignal<ReadonlyMap<string, string>>(new Map());
  const cycleText = useSignal('');
  const flows = new Map([...typed.value].flatMap(([id, text]) => [[id, readFlow(text) ?? 0] as const]));
  const wrong = [...typed.value.values()].some((text) => text.trim() !== '' && readFlow(text) === null);
  const cycle = cycleText.value.trim() === '' ? null : parseTime(cycleText.value);
  const cycleWrong = cycleText.value.trim() !== '' && cycle === null;
  const hasFlows = [...flows.values()].some((flow) => flow > 0);
  const { split, findings } =
    hasFlows && !wrong && !cycleWrong
      ? splitJunction(layout, site.id, requestOf(site, flows, cycle === null ? null : cycle / 1000))
      : { split: null, findings: [] };
  const apply = async (): Promise<void> => {
    if (!split) return;
    const greens = split.stages.map(({ name, green }) => `${name} ${timeText(green * 1000)}`).join(', ');
    const what = `Shared out the greens of ${site.name} by traffic: ${greens}.`;
    if (await model.change(writeLayout(applySplit(layout, site.id, split)), what.slice(0, 400))) {
      surface.sheet.value = null;
    }
  };
  return (
    <form
      class="traffic"
      onSubmit={(event) => {
        event.preventDefault();
        void apply();
      }}
    >
      <p>How many vehicles come in an hour? What counts is how the numbers compare; a quiet street has about 200.</p>
      {vehiclePhases(site).map(({ id, name }) => (
        <label key={id} class="flow">
          <span>{name}</span>
          <input
            class="remark"
            inputMode="numeric"
            autoComplete="off"
            placeholder="0"
            value={typed.value.get(id) ?? ''}
            onInput={(event) => {
              typed.value = new Map(typed.value).set(id, event.currentTarget.value);
            }}
          />
          <span>an hour</span>
        </label>
      ))}
      <label class="flow">
        <span>Cycle to watch</span>
        <input
          class="remark"
          inputMode="decimal"
          autoComplete="off"
          placeholder="by its traffic"
          value={cycleText}
          onInput={(event) => {
            cycleText.value = event.currentTarget.value;
          }}
        />
        <span>s</span>
      </label>
      {wrong && <p class="new-site-note">Write whole numbers of vehicles, such as 400.</p>}
      {cycleWrong && <p class="new-site-note">Write a time such as 60 or 1:05, or leave it empty.</p>}
      {split && <Preview split={split} site={site} />}
      {findings.map((finding) => (
        <p key={`${finding.code} ${finding.path}`} class="new-site-note">
          <b>{finding.what}</b> {finding.why} {finding.cure}
        </p>
      ))}
      <div class="row">
        <button type="submit" class="button strong" aria-disabled={split === null}>
          Take these greens
        </button>
      </div>
    </form>
  );
}

function Preview({ split, site }: { readonly split: Split; readonly site: Junction }) {
  return (
    <table class="greens">
      <caption>
        Cycle {timeText(split.cycle * 1000)}; the least delay would be at{' '}
        {timeText(Math.round(split.webster.optimum * 10) * 100)}.
      </caption>
      <thead>
        <tr>
          <th scope="col">Stage</th>
          <th scope="col">Green now</th>
          <th scope="col">By traffic</th>
        </tr>
      </thead>
      <tbody>
        {split.stages.map(({ id, name, green }) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            <td>{timeText((site.stages.find((stage) => stage.id === id)?.green ?? 0) * 1000)}</td>
            <td class="new-green">{timeText(green * 1000)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
