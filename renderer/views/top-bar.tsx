import { BoardStatus } from '../board/board-status.tsx';
import { CommandButton } from '../commands/button.tsx';
import { FileState } from '../files/file-state.tsx';
import { MenuButton } from '../menu/menu-button.tsx';
import { usePanel } from '../model/context.ts';
import type { Distance } from '../model/preferences.ts';

const VIEWS: readonly { readonly id: string; readonly distance: Distance; readonly short: string }[] = [
  { id: 'view-room', distance: 'room', short: 'Room' },
  { id: 'view-layout', distance: 'layout', short: 'Layout' },
  { id: 'view-desk', distance: 'desk', short: 'Desk' },
];

/** Layout, distance, board: the same on every view. */
export function TopBar() {
  const { model } = usePanel();
  const { layout, file } = model.open.value;
  const distance = model.preferences.distance.value;
  return (
    <header class="top-bar">
      <MenuButton />
      <h1 title={file}>{layout?.name ?? 'Amberwick'}</h1>
      <FileState />
      <nav class="distances" aria-label="Distance">
        {VIEWS.map(({ id, distance: at, short }) => (
          <CommandButton key={id} id={id} class="tab" pressed={distance === at}>
            {short}
          </CommandButton>
        ))}
      </nav>
      <BoardStatus />
      {distance !== 'room' && (
        <div class="top-commands">
          <CommandButton id="undo">Undo</CommandButton>
          <CommandButton id="put-back" />
          <CommandButton id="keep" class="button strong" />
          <CommandButton id="help" class="button square" label="Help">
            ?
          </CommandButton>
        </div>
      )}
    </header>
  );
}
