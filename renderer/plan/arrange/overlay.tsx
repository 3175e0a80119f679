import { usePanel } from '../../model/context.ts';
import { Measure } from '../../underlay/measure.tsx';
import { MovePicture } from '../../underlay/move-picture.tsx';
import type { Moving } from '../moving.ts';
import { DrawRoad } from './draw-road.tsx';
import { RoadHandles } from './road-handles.tsx';
import { TurnHandle } from './turn-handle.tsx';

/** What is laid over the plan while it is arranged, by what is in hand. */
export function ArrangeOverlay({ moving }: { readonly moving: Moving }) {
  const { model } = usePanel();
  const { plan } = model;
  if (!plan.arranging.value) return null;
  switch (plan.tool.value) {
    case 'road':
      return <DrawRoad />;
    case 'measure':
      return <Measure />;
    case 'picture':
      return <MovePicture />;
    default:
      return (
        <>
          <RoadHandles />
          <TurnHandle moving={moving} />
        </>
      );
  }
}
