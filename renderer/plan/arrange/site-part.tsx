import { useSignal } from '@preact/signals';
import { joinSites } from '../../../shared/layout/plan-edit/roads.ts';
import { standSite } from '../../../shared/layout/plan-edit/stand.ts';
import { usePanel } from '../../model/context.ts';
import { TURN } from '../moving.ts';
import { NumberField } from './number-field.tsx';

/** The site at hand: where it stands, how it is turned, and a road from it to another one. */
export function SitePart() {
  const { model, surface } = usePanel();
  const { plan } = model;
  const other = useSignal('');
  const { layout, sites } = model.open.value;
  const site = model.siteAtHand.value;
  const place = site && plan.placeOf(site.id);
  if (!layout || !site || !place) return null;
  const { name } = site.names;
  const stand = (to: { x?: number; y?: number; turn?: number }): void => {
    const next = standSite(layout, site.id, to);
    if (next !== layout)
      void plan.make({ layout: next, said: `${to.turn === undefined ? 'Moved' : 'Turned'} ${name}.` });
  };
  const others = sites.filter(({ id }) => id !== site.id);
  const goal = others.find(({ id }) => id === other.value) ?? others[0];
  return (
    <fieldset class="part">
      <legend>{name}</legend>
      <div class="row">
        <NumberField key={`${site.id} x`} label="From the left" unit="mm" value={place.x} onSet={(x) => stand({ x })} />
        <NumberField key={`${site.id} y`} label="From the back" unit="mm" value={place.y} onSet={(y) => stand({ y })} />
      </div>
      <div class="row">
        <NumberField
          key={`${site.id} turn`}
          label="Turn"
          unit="°"
          value={place.turn}
          onSet={(turn) => stand({ turn })}
        />
        <button type="button" class="button thumb" onClick={() => stand({ turn: place.turn - TURN })}>
          ↺ 15°
        </button>
        <button type="button" class="button thumb" onClick={() => stand({ turn: place.turn + TURN })}>
          ↻ 15°
        </button>
      </div>
      {goal && (
        <div class="row">
          <label class="field">
            Road to
            <select
              value={goal.id}
              onChange={(event) => {
                other.value = event.currentTarget.value;
              }}
            >
              {others.map(({ id, names }) => (
                <option key={id} value={id}>
                  {names.name}
                </option>
              ))}
            </select>
          </label>
          <button
            type="button"
            class="button"
            onClick={async () => {
              const joined = joinSites(layout, site.id, goal.id);
              if (!(await plan.make(joined)) || !('layout' in joined)) return;
              plan.choose(joined.layout.roads?.at(-1)?.id ?? null);
              surface.focus('road-name');
            }}
          >
            Join them
          </button>
        </div>
      )}
    </fieldset>
  );
}
