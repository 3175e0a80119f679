import { usePanel } from '../model/context.ts';

interface Props {
  readonly boards: readonly { readonly id: string }[];
  readonly chosen: string;
  choose(id: string): void;
}

/** Which board something is about; nothing where there is no choice. */
export function BoardSwitch({ boards, chosen, choose }: Props) {
  const { model } = usePanel();
  if (boards.length < 2) return null;
  return (
    <label class="field">
      Board
      <select value={chosen} onChange={(event) => choose(event.currentTarget.value)}>
        {boards.map(({ id }) => (
          <option key={id} value={id}>
            {model.boardName(id)}
          </option>
        ))}
      </select>
    </label>
  );
}
