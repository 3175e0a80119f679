import { useSignal } from '@preact/signals';
import { addPoint, nameRoad, takePoint, takeRoadAway, widenRoad } from '../../../shared/layout/plan-edit/roads.ts';
import { usePanel } from '../../model/context.ts';
import { NumberField } from './number-field.tsx';

/** The roads, and what can be changed of the one at hand. */
export function RoadPart() {
  const { model } = usePanel();
  const { plan } = model;
  const { layout } = model.open.value;
  const roads = layout?.roads ?? [];
  const road = roads.find(({ id }) => id === plan.road.value);
  const point = plan.point.value;
  if (!layout) return null;
  return (
    <fieldset class="part">
      <legend>Roads</legend>
      {roads.length === 0 && <p>There are none yet. Draw one, or join two sites.</p>}
      <ul class="road-list">
        {roads.map(({ id, name }) => (
          <li key={id}>
            <button
              type="button"
              class="tab"
              aria-pressed={id === plan.road.value}
              onClick={() => plan.choose(id === plan.road.value ? null : id)}
            >
              {name}
            </button>
          </li>
        ))}
      </ul>
      {road && (
        <>
          <div class="row">
            <RoadName
              key={`${road.id} ${road.name}`}
              name={road.name}
              onSet={(name) => plan.make(nameRoad(layout, road.id, name))}
            />
            <NumberField
              key={`${road.id} width`}
              label="Width"
              unit="mm"
              value={road.width}
              onSet={(width) => void plan.make(widenRoad(layout, road.id, width))}
            />
          </div>
          <p class="hint">
            Drag its points on the plan. A + between them makes another one.
            {point === null ? '' : ` Point ${point + 1} of ${road.points.length} is at hand.`}
          </p>
          <div class="row">
            {point !== null && point < road.points.length - 1 && (
              <button type="button" class="button" onClick={() => void plan.make(addPoint(layout, road.id, point))}>
                Another point after it
              </button>
            )}
            {point !== null && (
              <button
                type="button"
                class="button"
                onClick={async () => {
                  if (await plan.make(takePoint(layout, road.id, point))) plan.choose(road.id);
                }}
              >
                Take the point out
              </button>
            )}
            <button
              type="button"
              class="button"
              onClick={async () => {
                if (await plan.make(takeRoadAway(layout, road.id))) plan.choose(null);
              }}
            >
              Take the road away
            </button>
          </div>
        </>
      )}
    </fieldset>
  );
}

/** What cannot be a name is said and stays, to be mended. */
function RoadName({ name, onSet }: { readonly name: string; onSet(name: string): Promise<boolean> }) {
  const typed = useSignal(name);
  const take = (): void => {
    if (typed.value.trim() !== name) void onSet(typed.value);
  };
  return (
    <label class="number-field wide">
      <span>Name</span>
      <input
        class="remark"
        id="road-name"
        autoComplete="off"
        value={typed.value}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
        }}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          else if (event.key === 'Escape' && typed.value !== name) {
            event.stopPropagation();
            typed.value = name;
          }
        }}
      />
    </label>
  );
}
