import { addMasterSwitch } from '../../shared/layout/new-site/master-switch.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { OneInput } from '../site/inputs.tsx';

/** Every input of the board, those of no site too; and the switches on the layout that need no computer. */
export function BoardInputs({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const { layout, boards } = model.open.value;
  const compiled = boards.find(({ id }) => id === board.id);
  const switched = layout && addMasterSwitch(layout, board.id);
  const inputs = compiled?.table.inputs ?? [];
  if (inputs.length === 0 && !switched) return null;
  return (
    <fieldset class="inputs" aria-label="Inputs of the board">
      {inputs.map(({ name }, input) => (
        <OneInput key={name} board={board.id} input={input} name={name} />
      ))}
      {switched && (
        <button
          type="button"
          class="button"
          title="Two switches to ground on free pins: night, and all off. They work without a computer."
          onClick={() =>
            void model.change(
              writeLayout(switched),
              `Gave ${model.boardName(board.id)} a night switch and an all-off switch.`,
            )
          }
        >
          Wire night and all-off switches
        </button>
      )}
    </fieldset>
  );
}
