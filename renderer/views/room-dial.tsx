import { timeText } from '../../shared/workbench/words.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { turnable } from '../model/room-dials.ts';
import { spokenTime, stepped } from '../model/time.ts';
import { Turn } from '../site/turn.tsx';

const PAGE = 5;

interface Props {
  readonly site: OpenSite;
  /** Number of the dial in the site. */
  readonly dial: number;
  /** Which of the two it is. */
  readonly place: number;
}

/** One time in figures that are read from a few metres; which one it is can be chosen here. */
export function RoomDial({ site, dial, place }: Props) {
  const { model } = usePanel();
  const limits = site.program.dials[dial];
  const names = site.names.dials[dial];
  const board = model.board(site.board);
  const at = { board: site.board, site: site.number, dial };
  const running = board.runsLayout.value ? model.nudges.value(at) : null;
  const shown = running ?? site.binding.dials[dial] ?? 0;
  if (!limits || !names) return null;
  const turn = (steps: number): void => {
    if (running !== null) void model.nudges.nudge(at, stepped(shown, steps, limits));
  };
  return (
    <div class="room-dial">
      <select
        aria-label={place === 0 ? 'First dial' : 'Second dial'}
        value={String(dial)}
        onChange={(event) => model.roomDials.choose(site, place, Number(event.currentTarget.value))}
      >
        {turnable(site).map((it) => (
          <option key={it} value={String(it)}>
            {site.names.dials[it]?.name}
          </option>
        ))}
      </select>
      <Turn
        sign="−"
        label={`Shorter: ${names.name}`}
        isOff={running === null || shown <= limits.min}
        onTurn={() => turn(-1)}
      />
      <div
        class="room-value"
        id={`dial-${names.id}`}
        role="spinbutton"
        tabIndex={0}
        aria-label={names.name}
        aria-valuenow={shown / 1000}
        aria-valuemin={limits.min / 1000}
        aria-valuemax={limits.max / 1000}
        aria-valuetext={spokenTime(shown)}
        aria-disabled={running === null}
        onKeyDown={(event) => {
          const steps: Readonly<Record<string, number>> = {
            ArrowUp: 1,
            ArrowRight: 1,
            ArrowDown: -1,
            ArrowLeft: -1,
            PageUp: PAGE,
            PageDown: -PAGE,
          };
          const by = steps[event.key];
          if (by === undefined) return;
          event.preventDefault();
          turn(by);
        }}
      >
        {timeText(shown)}
      </div>
      <Turn
        sign="+"
        label={`Longer: ${names.name}`}
        isOff={running === null || shown >= limits.max}
        onTurn={() => turn(1)}
      />
    </div>
  );
}
