import { computed, useComputed, useSignalEffect } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { BoardNote } from '../board/board-note.tsx';
import { usePanel } from '../model/context.ts';
import { PictureNote } from '../underlay/note.tsx';
import { useDroppedPicture } from '../underlay/use-drop.ts';
import { Grid } from './arrange/grid.tsx';
import { ArrangeOverlay } from './arrange/overlay.tsx';
import { RoadGrips } from './arrange/road-grips.tsx';
import { SnapNote } from './arrange/snap-note.tsx';
import { detailOf } from './camera.ts';
import { draw, nearEnough } from './drawing.ts';
import { Glow } from './glow.tsx';
import { Land } from './land.tsx';
import { Moving } from './moving.ts';
import { Sites } from './sites.tsx';
import { useFrame } from './use-frame.ts';
import { useGestures } from './use-gestures.ts';
import { useSettled } from './use-settled.ts';
import { ZoomKeys } from './zoom-keys.tsx';

/** The town seen from above. Looking closer moves the window onto it; nothing is drawn anew until that has settled. */
export function Plan() {
  const { model } = usePanel();
  const { camera } = model.plan;
  const frame = useRef<HTMLDivElement>(null);
  useFrame(frame, camera);
  useGestures(frame, camera);
  useDroppedPicture();
  const { layout, sites } = model.open.value;
  const distance = model.preferences.distance.value;
  const whole = camera.whole.value;
  const detail = useSettled(useComputed(() => detailOf(camera.view.value?.zoom ?? 1)));
  const drawing = useMemo(
    () => (layout ? draw(layout, sites, distance, whole, detail) : null),
    [layout, sites, distance, whole, detail],
  );
  const width = drawing?.ground.width ?? 600;
  const depth = drawing?.ground.depth ?? 600;
  useEffect(() => {
    camera.board.value = { width, height: depth };
  }, [camera, width, depth]);
  useFollow();
  const moving = useMemo(() => new Moving(model), [model]);
  const window = useComputed(() => {
    const { left, top, right, bottom } = camera.box.value;
    return `${left} ${top} ${right - left} ${bottom - top}`;
  });
  const isOverPicture = layout?.underlay !== undefined && !model.plan.isPictureHidden.value;
  const look = useMemo(
    () =>
      computed(() => {
        // Across the room no letter is smaller than all others there: lamps then tell by place and light.
        const isSmall = distance === 'room' && (drawing?.r ?? 0) * 1.6 < 31.95 * camera.scale.value;
        return `town${isSmall ? ' small' : ''}${isOverPicture ? ' over-picture' : ''}`;
      }),
    [camera, distance, drawing, isOverPicture],
  );
  return (
    <div class={model.plan.arranging.value ? 'plan arranging' : 'plan'}>
      <div class="plan-frame" ref={frame}>
        {layout && drawing && (
          <svg class={look} viewBox={window} aria-label={`Plan of ${layout.name}`}>
            <Glow />
            <Land drawing={drawing} moving={moving} />
            <Grid />
            <RoadGrips />
            <Sites drawing={drawing} moving={moving} />
            <ArrangeOverlay moving={moving} />
          </svg>
        )}
        <SnapNote />
        <PictureNote />
        {layout && <BoardNote />}
      </div>
      <ZoomKeys />
    </div>
  );
}

/** Across the room, where all sites at once would be too small, the site at hand is looked at. */
function useFollow(): void {
  const { model } = usePanel();
  const { camera } = model.plan;
  useSignalEffect(() => {
    const { layout, sites } = model.open.value;
    const site = model.siteAtHand.value;
    const whole = camera.whole.value;
    const { width, height } = camera.board.value;
    if (model.preferences.distance.value !== 'room' || !layout || !site || width + height === 0) return;
    const zoom = nearEnough(layout, sites, 'room', whole);
    const place = model.plan.placeOf(site.id);
    if (zoom > 1 && place) camera.look({ zoom, x: place.x, y: place.y });
  });
}
