import { usePanel } from '../model/context.ts';
import { Plan } from '../plan/plan.tsx';
import { RunningNow } from '../site/running-now.tsx';

/** Across the room: the plan, what runs, seconds left. Nothing else. */
export function RoomView() {
  const { model } = usePanel();
  const { sites } = model.open.value;
  const crowd = sites.length <= 3 ? 'few' : sites.length <= 8 ? 'some' : 'many';
  return (
    <main class="view room">
      <Plan />
      <ul class={`room-sites ${crowd}`}>
        {sites.map((site) => (
          <li key={site.id}>
            <h2>{site.names.name}</h2>
            <RunningNow site={site} />
          </li>
        ))}
      </ul>
    </main>
  );
}
