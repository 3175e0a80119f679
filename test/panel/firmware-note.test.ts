/** Each board that answers with older firmware than this app ships is pointed out where the person looks, until put off. */
import { expect, test } from 'vitest';
import { putOff, toUpdate } from '../../renderer/board/to-update.ts';
import { openBench } from './example.ts';

const USB0 = '/dev/ttyUSB0';

test('an older board is pointed out when it is connected, a board with the firmware of this app is not', async () => {
  const { host, model } = await openBench();
  const ids = (): string[] => toUpdate(model.boards.value).map(({ id }) => id);
  expect(ids()).toEqual([]);
  host.plugged.set(USB0, 'older');
  await model.ask('connect', { board: 'town', port: USB0 });
  expect(ids()).toEqual(['town']);
  await model.ask('disconnect', { board: 'town' });
  expect(ids()).toEqual([]);
  host.plugged.set(USB0, 'ours');
  await model.ask('connect', { board: 'town', port: USB0 });
  expect(ids()).toEqual([]);
});

test('put off, it stays so when the board comes again; another board in its place is pointed out anew', async () => {
  const { host, model } = await openBench();
  host.plugged.set(USB0, 'older');
  await model.ask('connect', { board: 'town', port: USB0 });
  const [board] = toUpdate(model.boards.value);
  if (!board) throw new Error('not pointed out');
  putOff(board);
  expect(toUpdate(model.boards.value)).toEqual([]);
  await model.ask('disconnect', { board: 'town' });
  await model.ask('connect', { board: 'town', port: USB0 });
  expect(toUpdate(model.boards.value)).toEqual([]);
  const { who } = board.state.value;
  if (!who) throw new Error('nobody there');
  board.state.value = { ...board.state.value, who: { ...who, identity: 'FFFF0000' } };
  expect(toUpdate(model.boards.value)).toEqual([board]);
});
