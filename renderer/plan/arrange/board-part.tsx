import { resizeBaseboard } from '../../../shared/layout/plan-edit/baseboard.ts';
import { roomOf } from '../../../shared/layout/plan-edit/loose.ts';
import { usePanel } from '../../model/context.ts';
import { NumberField } from './number-field.tsx';

/** The size of the baseboard. */
export function BoardPart() {
  const { model } = usePanel();
  const { plan } = model;
  const { layout } = model.open.value;
  if (!layout) return null;
  const size = layout.baseboard ?? roomOf(layout);
  const resize = (to: Partial<typeof size>): void => void plan.make(resizeBaseboard(layout, { ...size, ...to }));
  return (
    <fieldset class="part">
      <legend>Baseboard</legend>
      <div class="row">
        <NumberField label="Width" unit="mm" value={size.width} onSet={(width) => resize({ width })} />
        <NumberField label="Depth" unit="mm" value={size.depth} onSet={(depth) => resize({ depth })} />
      </div>
    </fieldset>
  );
}
