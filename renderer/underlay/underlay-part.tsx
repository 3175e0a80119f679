import { useSignal } from '@preact/signals';
import {
  fadePicture,
  scalePicture,
  takePicture,
  turnPicture,
  USUAL_STRENGTH,
} from '../../shared/layout/plan-edit/underlay.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { usePanel } from '../model/context.ts';
import type { PlanTool } from '../model/plan-view.ts';
import { NumberField } from '../plan/arrange/number-field.tsx';
import { choosePicture, layFile } from './choose.ts';

/** The picture under the plan: chosen, moved, scaled, turned, faded, hidden, taken away. */
export function UnderlayPart() {
  const { model, surface } = usePanel();
  const { plan } = model;
  const { layout } = model.open.value;
  const underlay = layout?.underlay;
  const tool = plan.tool.value;
  if (!layout) return null;
  const take = (next: PlanTool, focus: string): void => {
    plan.take(tool === next ? 'move' : next);
    if (tool !== next) surface.focus(focus);
  };
  return (
    <fieldset class="part">
      <legend>Picture under the plan</legend>
      {underlay ? (
        <p class="picture-name">{underlay.name}</p>
      ) : (
        <p>A track plan or a photo of the baseboard, to draw over.</p>
      )}
      <div class="row">
        <button
          type="button"
          class="button"
          id="lay-picture"
          onClick={async () => {
            const file = await choosePicture();
            if (file) await layFile(model, file);
          }}
        >
          {underlay ? 'Another picture' : 'Choose a picture'}
        </button>
        {underlay && (
          <>
            <button
              type="button"
              class="button"
              aria-pressed={tool === 'picture'}
              onClick={() => take('picture', 'move-picture')}
            >
              Move the picture
            </button>
            <button
              type="button"
              class="button"
              aria-pressed={tool === 'measure'}
              onClick={() => take('measure', 'measure-cursor')}
            >
              Scale by two points
            </button>
            <button
              type="button"
              class="button"
              aria-pressed={plan.isPictureHidden.value}
              onClick={() => plan.hidePicture(!plan.isPictureHidden.peek())}
            >
              {plan.isPictureHidden.value ? 'Show the picture' : 'Hide the picture'}
            </button>
            <button type="button" class="button" onClick={() => void plan.make(takePicture(layout))}>
              Take the picture away
            </button>
          </>
        )}
      </div>
      {underlay && (
        <div class="row">
          <NumberField
            label="Picture turned"
            unit="°"
            value={underlay.turn ?? 0}
            onSet={(turn) => void plan.make(turnPicture(layout, turn))}
          />
          <NumberField
            label="Strength"
            unit="%"
            value={underlay.strength ?? USUAL_STRENGTH}
            onSet={(strength) => void plan.make(fadePicture(layout, strength))}
          />
        </div>
      )}
      {tool === 'measure' && <Measured layout={layout} />}
    </fieldset>
  );
}

/** How far apart the two points really are. */
function Measured({ layout }: { readonly layout: Layout }) {
  const { model } = usePanel();
  const { plan } = model;
  const apart = useSignal<number | undefined>(undefined);
  const [from, to] = plan.measured.value;
  if (!from || !to) {
    const which = from ? 'the second' : 'the first';
    return <p role="status">Press on the plan to set {which} of two points whose distance you know.</p>;
  }
  return (
    <div class="row">
      <NumberField
        id="measured-length"
        label="These two points are apart by"
        unit="mm"
        value={apart.value}
        onSet={async (mm) => {
          if (await plan.make(scalePicture(layout, [from, to], mm))) plan.take('move');
          else apart.value = mm;
        }}
      />
    </div>
  );
}
