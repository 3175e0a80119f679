import { chooseBy } from '../commands/site-at-hand.ts';
import { usePanel } from '../model/context.ts';
import { Plan } from '../plan/plan.tsx';
import { RunningNow } from '../site/running-now.tsx';
import { RoomDial } from './room-dial.tsx';

/** Across the room: the plan, what runs at the site at hand, and two of its dials. Nothing else. */
export function RoomView() {
  const { model } = usePanel();
  const { sites } = model.open.value;
  const site = model.siteAtHand.value;
  return (
    <main class="view room">
      <Plan />
      {!site && <NothingRuns />}
      {site && (
        <section class="room-site" aria-label="Site at hand">
          <div class="room-choice">
            <button
              type="button"
              class="turn"
              aria-label="Site before this one"
              disabled={sites.length < 2}
              onClick={() => chooseBy(model, -1)}
            >
              ‹
            </button>
            <h2>{site.names.name}</h2>
            <button
              type="button"
              class="turn"
              aria-label="Site after this one"
              disabled={sites.length < 2}
              onClick={() => chooseBy(model, 1)}
            >
              ›
            </button>
          </div>
          <RunningNow key={site.id} site={site} />
          {model.roomDials.of(site).map((dial, place) => (
            <RoomDial key={`${site.id} ${place}`} site={site} dial={dial} place={place} />
          ))}
        </section>
      )}
    </main>
  );
}

/** No site of the layout could be worked out: an empty place says what to do. */
function NothingRuns() {
  const { model } = usePanel();
  const count = model.open.value.findings.length;
  return (
    <section class="room-site" aria-label="Site at hand">
      <h2 class="room-nothing">{model.open.value.layout?.name ?? 'No layout is open'}</h2>
      <p class="room-nothing">
        {count === 0 ? 'No site can be shown yet.' : `Nothing can run. The desk says why: findings, ${count}.`}
      </p>
    </section>
  );
}
