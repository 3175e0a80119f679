import type { Load } from '../../shared/electrics/model.ts';
import { headOf } from '../../shared/lampcheck/lamps.ts';
import { LETTERS } from '../plan/lamp.tsx';
import { colourOf } from './words.ts';

interface Props {
  readonly loads: readonly Load[];
  readonly isChosen?: (load: Load) => boolean;
  readonly isMarked?: (load: Load) => boolean;
  /** Beside the colour, such as a number. */
  readonly extra?: (load: Load) => string;
  readonly onChoose: (load: Load) => void;
}

/** Every lamp as a key, site by site and head by head; arrow keys go from one to the next. */
export function LampList({ loads, isChosen, isMarked, extra, onChoose }: Props) {
  const sites = [...new Set(loads.map(({ siteName }) => siteName))];
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys within it act; this only moves between them
    <div class="lamp-list" onKeyDown={walk}>
      {sites.map((site) => {
        const own = loads.filter(({ siteName }) => siteName === site);
        const heads = [...new Set(own.map(headOf))];
        return (
          <section key={site} aria-label={site}>
            <h3>{site}</h3>
            {heads.map((head) => (
              <p key={head} class="lamp-row">
                {own
                  .filter((load) => headOf(load) === head)
                  .map((load) => (
                    <button
                      key={load.lamp}
                      type="button"
                      class="button lamp-key"
                      data-point={load.lamp}
                      aria-pressed={isChosen?.(load) ?? false}
                      aria-label={`${load.label}, ${colourOf(load)}${extra?.(load) ? `, ${extra(load)}` : ''}`}
                      onClick={() => onChoose(load)}
                    >
                      <span class="lamp-letter" aria-hidden="true">
                        {LETTERS[load.colour] ?? '·'}
                      </span>
                      <span>
                        {load.label}, {colourOf(load)}
                        {extra && <b> {extra(load)}</b>}
                        {isMarked?.(load) && ' (asked for)'}
                      </span>
                    </button>
                  ))}
              </p>
            ))}
          </section>
        );
      })}
    </div>
  );
}

const STEPS: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

function walk(event: KeyboardEvent): void {
  const step = STEPS[event.key];
  const list = event.currentTarget;
  if (!step || !(list instanceof HTMLElement)) return;
  const keys = [...list.querySelectorAll<HTMLElement>('.lamp-key')];
  const at = keys.indexOf(document.activeElement as HTMLElement);
  const next = keys[(at + step + keys.length) % keys.length];
  if (!next) return;
  event.preventDefault();
  event.stopPropagation();
  next.focus();
}
