import { useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { timeText } from '../../shared/workbench/words.ts';
import { findingsOfDial } from '../findings/places.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { dialKey } from '../model/nudges.ts';
import { parseTime, spokenTime, stepped } from '../model/time.ts';
import { Told } from './told.tsx';
import { Turn } from './turn.tsx';

/** Steps of the large keys. */
const PAGE = 5;

interface Props {
  readonly site: OpenSite;
  /** Number of the dial in the site. */
  readonly dial: number;
}

/** One time of the site at hand: − and +, arrow keys, wheel, or typed. */
export function Dial({ site, dial }: Props) {
  const { model } = usePanel();
  const typed = useSignal<string | null>(null);
  const misread = useSignal(false);
  const field = useRef<HTMLInputElement>(null);
  const limits = site.program.dials[dial];
  const names = site.names.dials[dial];
  const board = model.board(site.board);
  const place = { board: site.board, site: site.number, dial };
  const planned = site.binding.dials[dial] ?? 0;
  const running = board.runsLayout.value ? model.nudges.value(place) : null;
  const kept = board.state.value.keptDials?.[site.number]?.[dial] ?? null;
  const shown = running ?? planned;
  const canTurn = running !== null;

  const go = (ms: number): void => {
    typed.value = null;
    misread.value = false;
    if (canTurn) void model.nudges.nudge(place, ms);
  };
  const turn = (steps: number): void => {
    if (limits) go(stepped(shown, steps, limits));
  };
  const commit = (): void => {
    if (typed.value === null) return;
    const ms = parseTime(typed.value);
    misread.value = ms === null;
    if (ms !== null) go(ms);
  };
  // Preact listens passively to wheels; this one must not scroll the view as well.
  const turnRef = useRef(turn);
  turnRef.current = turn;
  useEffect(() => {
    const input = field.current;
    const onWheel = (event: WheelEvent): void => {
      if (document.activeElement !== input || event.deltaY === 0) return;
      event.preventDefault();
      turnRef.current(event.deltaY < 0 ? 1 : -1);
    };
    input?.addEventListener('wheel', onWheel, { passive: false });
    return () => input?.removeEventListener('wheel', onWheel);
  }, []);

  // What is typed next replaces the time; a new time on the screen would have undone the selection.
  useLayoutEffect(() => {
    if (typed.peek() === null && document.activeElement === field.current) field.current?.select();
  }, [shown, typed]);

  if (!limits || !names) return null;
  const trouble = model.trouble.value;
  const isAbout = trouble?.about.dial !== undefined && dialKey(trouble.about.dial) === dialKey(place);
  const findings = findingsOfDial(model.open.value.findings, model.open.value.layout, site.index, names.id);
  const isUnkept = running !== null && kept !== null && running !== kept;
  return (
    <li class={isUnkept ? 'dial unkept' : 'dial'} data-dial={names.id}>
      <div class="dial-words">
        <span class="dial-name">{names.name}</span>
        <Told planned={planned} running={running} kept={kept} />
        {isAbout && <span class="dial-trouble">{trouble?.problem.what}</span>}
        {misread.value && <span class="dial-trouble">Write a time such as 18, 18.5 s or 1:05.</span>}
        {findings.map((finding) => (
          <span key={finding.code} class="dial-finding" title={`${finding.why} ${finding.cure}`}>
            {finding.what}
          </span>
        ))}
      </div>
      <Turn sign="−" label={`Shorter: ${names.name}`} isOff={!canTurn || shown <= limits.min} onTurn={() => turn(-1)} />
      <input
        ref={field}
        class="dial-value"
        id={`dial-${names.id}`}
        data-dial-field
        data-typing={typed.value !== null}
        role="spinbutton"
        inputMode="decimal"
        autoComplete="off"
        aria-label={names.name}
        aria-valuenow={shown / 1000}
        aria-valuemin={limits.min / 1000}
        aria-valuemax={limits.max / 1000}
        aria-valuetext={spokenTime(shown)}
        readOnly={!canTurn}
        value={typed.value ?? timeText(shown)}
        onFocus={(event) => event.currentTarget.select()}
        onClick={(event) => {
          if (typed.value === null) event.currentTarget.select();
        }}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
        }}
        onBlur={commit}
        onKeyDown={(event) => {
          const steps: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowDown: -1, PageUp: PAGE, PageDown: -PAGE };
          const by = steps[event.key];
          if (by !== undefined) {
            event.preventDefault();
            turn(by);
          } else if (event.key === 'Enter') {
            commit();
            event.currentTarget.select();
          } else if (event.key === 'Escape' && typed.value !== null) {
            event.stopPropagation();
            typed.value = null;
            misread.value = false;
          }
        }}
      />
      <Turn sign="+" label={`Longer: ${names.name}`} isOff={!canTurn || shown >= limits.max} onTurn={() => turn(1)} />
    </li>
  );
}
