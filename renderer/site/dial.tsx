import { useSignal } from '@preact/signals';
import { timeText } from '../../shared/workbench/words.ts';
import { findingsOfDial } from '../findings/places.ts';
import { dialTimes } from '../model/compare.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { dialKey } from '../model/nudges.ts';
import { readTime, stepped } from '../model/time.ts';
import { DialMore } from '../tuning/dial-more.tsx';
import { LimitBar } from '../tuning/limit-bar.tsx';
import { limitText } from '../tuning/limit-words.ts';
import { DialField } from './dial-field.tsx';
import { Told } from './told.tsx';
import { Turn } from './turn.tsx';

interface Props {
  readonly site: OpenSite;
  /** Number of the dial in the site. */
  readonly dial: number;
}

/** One time of the site at hand: − and +, arrow keys, wheel, or typed; its words lead to its limits. */
export function Dial({ site, dial }: Props) {
  const { model } = usePanel();
  const typed = useSignal<string | null>(null);
  const wrong = useSignal<string | null>(null);
  const isOpen = useSignal(false);
  const limits = site.program.dials[dial];
  const names = site.names.dials[dial];
  const place = { board: site.board, site: site.number, dial };
  const times = dialTimes(model, site, dial);
  const { planned, running, kept } = times;
  const shown = running ?? planned;
  const canTurn = running !== null;
  if (!limits || !names) return null;

  const go = (ms: number): void => {
    typed.value = null;
    wrong.value = null;
    if (canTurn) void model.nudges.nudge(place, ms);
  };
  const turn = (steps: number): void => go(stepped(shown, steps, limits));
  const commit = (): void => {
    if (typed.value === null) return;
    const read = readTime(typed.value);
    if ('wrong' in read) wrong.value = `${read.wrong} It stays ${timeText(shown)}.`;
    else if (read.ms < limits.min) wrong.value = beyond('shorter', 'least', limits.min, shown);
    else if (read.ms > limits.max) wrong.value = beyond('longer', 'greatest', limits.max, shown);
    else go(read.ms);
  };

  const trouble = model.trouble.value;
  const isAbout = trouble?.about.dial !== undefined && dialKey(trouble.about.dial) === dialKey(place);
  const findings = findingsOfDial(model.open.value.findings, model.open.value.layout, site.index, names.id);
  const isUnkept = running !== null && kept !== null && running !== kept;
  const [moreId, notesId] = [`more-${names.id}`, `notes-${names.id}`];
  return (
    <li class={isUnkept ? 'dial unkept' : 'dial'} data-dial={names.id}>
      <button
        type="button"
        class="dial-words"
        aria-expanded={isOpen.value}
        aria-controls={moreId}
        title={limitText(site, dial)}
        onClick={() => {
          isOpen.value = !isOpen.value;
        }}
      >
        <span class="unseen">Limits and more: </span>
        <span class="dial-name">
          {names.name}
          {names.owner && <span class="own-limits"> own limits</span>}
        </span>
        <Told planned={planned} running={running} kept={kept} />
        <LimitBar times={times} />
      </button>
      <Turn sign="−" label={`Shorter: ${names.name}`} isOff={!canTurn || shown <= limits.min} onTurn={() => turn(-1)} />
      <DialField
        id={names.id}
        name={names.name}
        shown={shown}
        limits={limits}
        canTurn={canTurn}
        typed={typed}
        describedBy={notesId}
        isWrong={wrong.value !== null}
        onTurn={turn}
        onType={() => {
          wrong.value = null;
        }}
        onCommit={commit}
        onGiveUp={() => {
          typed.value = null;
          wrong.value = null;
        }}
      />
      <Turn sign="+" label={`Longer: ${names.name}`} isOff={!canTurn || shown >= limits.max} onTurn={() => turn(1)} />
      <div class="dial-notes" id={notesId}>
        {isAbout && <span class="dial-trouble">{trouble?.problem.what}</span>}
        {wrong.value !== null && (
          <span class="dial-trouble" role="alert">
            {wrong}
          </span>
        )}
        {findings.map((finding) => (
          <span key={finding.code} class="dial-finding" title={`${finding.why} ${finding.cure}`}>
            {finding.what}
          </span>
        ))}
      </div>
      {isOpen.value && <DialMore times={times} id={moreId} />}
    </li>
  );
}

function beyond(longer: string, end: string, limit: number, shown: number): string {
  return `That is ${longer} than its ${end}, ${timeText(limit)}. It stays ${timeText(shown)}; its name leads to other limits.`;
}
