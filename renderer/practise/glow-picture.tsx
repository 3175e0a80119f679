import type { Glow } from '../../shared/electrics/model.ts';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { LETTERS } from '../plan/lamp.tsx';
import { headText, seenLayout } from './glow.ts';

const WORDS: Readonly<Record<Glow, string>> = { dark: '', dim: 'dim', lit: 'lit', bright: 'bright' };

/** What the virtual layout really shows, where a real one would be looked at. Nothing on a real board. */
export function GlowPicture({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const glow = board.glow.value;
  if (glow === null || !board.runsLayout.value) return null;
  return (
    <section class="glow-picture" aria-label="What the virtual layout really shows">
      <h3>What the virtual layout really shows</h3>
      <div class="glow-sites">
        {seenLayout(model.check.loads(board.id), glow).map(({ name, heads }) => (
          <section key={name} aria-label={name}>
            <h4>{name}</h4>
            <div class="glow-heads">
              {heads.map((head) => (
                <div
                  key={head.key}
                  class="glow-head"
                  role="img"
                  aria-label={`${head.name}: ${headText(head)}`}
                  title={head.name}
                >
                  {head.lamps.map(({ lamp, head: index, colour, glow: shines }) => (
                    <span
                      key={lamp}
                      class="glow-lamp"
                      data-colour={colour || 'white'}
                      data-glow={shines}
                      data-seen={`${lamp} ${index}`}
                    >
                      <b>{LETTERS[colour] ?? '·'}</b> <small>{WORDS[shines]}</small>
                    </span>
                  ))}
                </div>
              ))}
            </div>
          </section>
        ))}
      </div>
    </section>
  );
}
