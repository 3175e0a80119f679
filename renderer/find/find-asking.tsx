import { useSignal } from '@preact/signals';
import { inCheckOrder } from '../../shared/lampcheck/lamps.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { OWN_LED } from '../../shared/layout/wiring/numbers.ts';
import { useCheckKeys } from '../check/keys.ts';
import { LampList } from '../check/lamp-list.tsx';
import { PointPlan } from '../check/point-plan.tsx';
import { usePanel } from '../model/context.ts';
import { GlowPicture } from '../practise/glow-picture.tsx';
import type { FindModel } from './find.ts';

/** One output flashes: which lamp was it? */
export function FindAsking({ find }: { readonly find: FindModel }) {
  const { model } = usePanel();
  const note = useSignal('');
  const board = find.board.value;
  const now = find.now;
  useCheckKeys({ 0: () => find.nothing(), Backspace: () => find.back() });
  const { layout } = model.open.value;
  if (!layout || !now) return null;
  const loads = inCheckOrder(model.check.loads(board));
  const found = new Map(find.found.value.map(({ path, output }) => [path, output]));
  const names = new Map(find.tries.value.map(({ output, name }) => [output, name]));
  // A layout with mistakes has no table; its lamps can be pointed at all the same.
  const places = loads.length > 0 ? [] : lampPlaces(layout, board);
  const planned = lampPlaces(layout, board).find(({ output }) => output === now.output);
  return (
    <div class="check-pointing" data-output={now.output} data-high={String(now.high)}>
      <div class="point-words">
        <div>
          <p class="check-progress">
            <b>
              {find.at.value + 1} of {find.tries.value.length}
            </b>
            <progress max={find.tries.value.length} value={find.at.value} aria-label="Outputs so far" />
          </p>
          <p class="check-name" aria-live="polite">
            {now.name} flashes{now.high === false ? ', pulled low' : ''}
          </p>
          <p class="check-note">
            {planned ? `Planned here: ${planned.name}. ` : ''}
            {now.output === OWN_LED && "The board's own LED flashes with it. "}Press the lamp that flashes, on the plan
            or in the list.
          </p>
        </div>
        <PointPlan board={board} onPoint={(lamp) => find.point(loads.find((it) => it.lamp === lamp)?.path ?? null)} />
        <div class="row">
          <button
            type="button"
            class="button strong tall"
            aria-keyshortcuts="0"
            aria-label="Nothing"
            onClick={() => find.nothing()}
          >
            <kbd>0</kbd> Nothing
          </button>
          <input
            class="remark"
            aria-label="What it was"
            placeholder="such as: shop window"
            maxLength={80}
            value={note}
            onInput={(event) => {
              note.value = event.currentTarget.value;
            }}
          />
          <button
            type="button"
            class="button tall"
            onClick={() => {
              find.point(null, note.value.trim());
              note.value = '';
            }}
          >
            Something that is not in the plan
          </button>
          <button type="button" class="button tall" aria-keyshortcuts="Backspace" onClick={() => find.back()}>
            One back
          </button>
          <button type="button" class="button tall" onClick={() => find.finish()}>
            That is enough
          </button>
        </div>
      </div>
      <div class="point-side">
        <GlowPicture board={model.board(board)} />
        {places.length > 0 ? (
          <div class="lamp-list">
            {places.map(({ path, name }) => (
              <button key={path} type="button" class="button lamp-key" onClick={() => find.point(path)}>
                {name}
              </button>
            ))}
          </div>
        ) : (
          <LampList
            loads={loads}
            isChosen={({ path }) => found.has(path)}
            extra={({ path }) => names.get(found.get(path) ?? -1) ?? ''}
            onChoose={({ path }) => find.point(path)}
          />
        )}
      </div>
    </div>
  );
}
