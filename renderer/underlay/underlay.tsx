import { useComputed } from '@preact/signals';
import { USUAL_STRENGTH } from '../../shared/layout/plan-edit/underlay.ts';
import { usePanel } from '../model/context.ts';

/** The picture, as far as it is on this computer and not hidden. While it is moved it goes along. */
export function UnderlayPicture() {
  const { model } = usePanel();
  const { plan } = model;
  const underlay = model.open.value.layout?.underlay;
  const way = useComputed(() => {
    const moved = plan.pictureWay.value;
    return moved ? `translate(${moved.x} ${moved.y})` : '';
  });
  if (!underlay || plan.isPictureHidden.value) return null;
  const state = plan.pictures.of(underlay.picture).value;
  if (state.is !== 'here') return null;
  const { x, y, width, turn = 0, strength = USUAL_STRENGTH } = underlay;
  const height = (width * state.height) / state.width;
  return (
    <g transform={way}>
      <image
        class="underlay"
        href={state.url}
        x={x - width / 2}
        y={y - height / 2}
        width={width}
        height={height}
        preserveAspectRatio="none"
        opacity={strength / 100}
        transform={turn === 0 ? '' : `rotate(${turn} ${x} ${y})`}
      />
    </g>
  );
}
