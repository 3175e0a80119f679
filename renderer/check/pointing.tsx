import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Load } from '../../shared/electrics/model.ts';
import { usePanel } from '../model/context.ts';
import { GlowPicture } from '../practise/glow-picture.tsx';
import { useCheckKeys } from './keys.ts';
import { LampList } from './lamp-list.tsx';
import { PointPlan } from './point-plan.tsx';
import { colourOf } from './words.ts';

/** Which lamp did light: pressed on the plan or in the list. */
export function Pointing() {
  const { model } = usePanel();
  const { check } = model;
  const part = useRef<HTMLDivElement>(null);
  const several = useSignal(false);
  const chosen = useSignal<readonly number[]>([]);
  const now = check.check.value;
  const load = check.step.value;
  const result = check.pointingFor.value;
  const back = (): void => {
    check.phase.value = 'asking';
  };
  useCheckKeys({ Backspace: back, Escape: back });
  useEffect(() => {
    part.current?.querySelector<HTMLElement>('.lamp-key')?.focus();
  }, []);
  if (!now || !load) return null;
  const give = (lamps: readonly Load[]): void => void check.answer({ result, saw: lamps });
  const point = (lamp: number): void => {
    const seen = now.loads.find((it) => it.lamp === lamp);
    if (!seen) return;
    if (!several.value) give([seen]);
    else {
      const before = chosen.value;
      chosen.value = before.includes(lamp) ? before.filter((it) => it !== lamp) : [...before, lamp];
    }
  };
  const sites = [...now.loads].sort((a, b) => Number(b.site === load.site) - Number(a.site === load.site));
  return (
    <div class="check-pointing" ref={part}>
      <div class="point-words">
        <p class="check-says">
          {load.siteName}, {load.label}, {colourOf(load)} was asked for.{' '}
          {result === 'wrong' ? 'Which lamp did light?' : 'Which lamp lit with it?'}
        </p>
        <PointPlan board={now.board} onPoint={point} />
        <p class="row">
          <button type="button" class="button tall" onClick={() => give([])}>
            One that is not in the plan, or I cannot tell
          </button>
          <button
            type="button"
            class="button tall"
            aria-pressed={several.value}
            onClick={() => {
              several.value = !several.value;
            }}
          >
            More than one
          </button>
          {several.value && (
            <button
              type="button"
              class="button strong tall"
              aria-disabled={chosen.value.length === 0}
              onClick={() =>
                chosen.value.length > 0 && give(now.loads.filter(({ lamp }) => chosen.value.includes(lamp)))
              }
            >
              These {chosen.value.length}
            </button>
          )}
          <button type="button" class="button tall" aria-keyshortcuts="Backspace" onClick={back}>
            Back to the answer
          </button>
        </p>
      </div>
      <div class="point-side">
        <GlowPicture board={model.board(now.board)} />
        <LampList
          loads={sites}
          isChosen={({ lamp }) => chosen.value.includes(lamp)}
          isMarked={({ lamp }) => lamp === load.lamp}
          onChoose={({ lamp }) => point(lamp)}
        />
      </div>
    </div>
  );
}
