/** Bare, old and broken boards as the person meets them: what is offered, asked, shown and told. */
import { signal } from '@preact/signals';
import { expect, test } from 'vitest';
import { boardWords } from '../../renderer/board/words.ts';
import { commandById } from '../../renderer/commands/all.ts';
import type { About } from '../../renderer/commands/command.ts';
import { dayTime } from '../../renderer/log/clock-time.ts';
import { percentOf } from '../../renderer/model/firmware.ts';
import type { Sheet, Surface } from '../../renderer/model/surface.ts';
import { chipWords, firmwareWords, updateWords } from '../../renderer/writing/words.ts';
import { type Bench, openBench, twoBoards } from './example.ts';

const USB0 = '/dev/ttyUSB0';
const USB1 = '/dev/ttyUSB1';

const makeSurface = (): Surface => ({ sheet: signal<Sheet>(null), under: signal<Sheet>(null) }) as Surface;

const aboutTown = ({ model }: Bench, port?: string): About =>
  port === undefined ? { board: model.board('town') } : { board: model.board('town'), port };

const state = ({ model }: Bench) => model.board('town').state.value;

function offered({ model }: Bench, id: string, about: About): string | null {
  const command = commandById(id);
  return command.when(model, about) ? (command.name?.(model, about) ?? command.label) : null;
}

/** A bare board at the port, tried in vain; then the question, answered with yes. */
async function beginWriting(bench: Bench): Promise<Surface> {
  const surface = makeSurface();
  bench.host.plugged.set(USB0, 'bare');
  await bench.model.ask('connect', { board: 'town', port: USB0 });
  await commandById('write-firmware').run(bench.model, surface, aboutTown(bench));
  void bench.model.writing.begin();
  await bench.settle();
  return surface;
}

test('a bare board does not answer: its port offers the firmware, another port does not', async () => {
  const bench = await openBench();
  expect(offered(bench, 'write-firmware', aboutTown(bench))).toBe(null);
  bench.host.plugged.set(USB0, 'bare');
  await bench.model.ask('connect', { board: 'town', port: USB0 });
  expect(state(bench)).toMatchObject({ link: 'off', port: USB0, problem: { code: 'noAnswer' } });
  expect(offered(bench, 'write-firmware', aboutTown(bench, USB0))).toBe('Put the firmware on');
  expect(offered(bench, 'write-firmware', aboutTown(bench, USB1))).toBe(null);
});

test('another program is replaced, an older firmware of ours is updated, and the words say which', async () => {
  const bench = await openBench();
  for (const [what, words] of [
    ['foreign', 'Put the firmware on'],
    ['ancient', 'Update the firmware'],
    ['older', 'Update the firmware'],
    ['ours', null],
  ] as const) {
    bench.host.plugged.set(USB0, what);
    await bench.model.ask('connect', { board: 'town', port: USB0 });
    expect(offered(bench, 'write-firmware', aboutTown(bench))).toBe(words);
  }
});

test('an older firmware that can be spoken to is no problem, only a line', async () => {
  const bench = await openBench();
  bench.host.plugged.set(USB0, 'older');
  await bench.model.ask('connect', { board: 'town', port: USB0 });
  expect(state(bench).problem).toBe(null);
  expect(updateWords(state(bench))).toBe('Firmware 1.0.0; 1.1.0 comes with this app.');
  expect(firmwareWords(state(bench))).toBe('1.0.0, older than the 1.1.0 of this app');
});

test('the virtual board and a port that is only busy are offered nothing', async () => {
  const bench = await openBench();
  await bench.model.ask('connect', { board: 'town', port: 'virtual:town' });
  expect(offered(bench, 'write-firmware', aboutTown(bench))).toBe(null);
  bench.host.boards[0]?.fail(USB0, { code: 'portBusy', what: '', why: '', next: '' });
  expect(offered(bench, 'write-firmware', aboutTown(bench))).toBe(null);
});

test('nothing is written before the question is answered', async () => {
  const bench = await openBench();
  const surface = makeSurface();
  bench.host.plugged.set(USB0, 'bare');
  await bench.model.ask('connect', { board: 'town', port: USB0 });
  surface.sheet.value = 'board';
  await commandById('write-firmware').run(bench.model, surface, aboutTown(bench));
  expect(surface.sheet.value).toBe('firmware');
  expect(bench.model.writing.now.value).toEqual({ step: 'ask', job: { is: 'put', board: 'town', port: USB0 } });
  expect(bench.host.calls.filter(({ name }) => name === 'writeFirmware')).toEqual([]);
  // Not now: back to where the button was.
  await commandById('put-away').run(bench.model, surface);
  expect(surface.sheet.value).toBe('board');
});

test('the stages are told one after the other, with their percent where they have one', async () => {
  const bench = await openBench();
  await beginWriting(bench);
  const { writing } = bench.host;
  const seen: [string, number | null][] = [];
  const note = (): void => {
    const { task } = state(bench);
    seen.push([boardWords(state(bench)), task && percentOf(task)]);
  };
  note();
  writing.stage('press');
  note();
  writing.stage('write', 12_288, 24_576);
  note();
  writing.stage('verify', 24_576, 24_576);
  note();
  writing.stage('greet');
  note();
  writing.stage('restore', 1, 3);
  note();
  expect(seen).toEqual([
    ['waking its boot loader', null],
    ['press the reset button on the board now', null],
    ['writing the firmware, 50 %', 50],
    ['reading back what was written, 100 %', 100],
    ['waiting for its greeting', null],
    ['putting back what it kept, 33 %', 33],
  ]);
  writing.finish();
  await bench.settle();
  expect(bench.model.writing.now.value).toMatchObject({ step: 'done', state: { link: 'ready', running: 'none' } });
  expect(bench.model.log.value.at(-1)?.text).toBe('Wrote firmware 1.1.0 to Town board.');
  expect(bench.model.trouble.value).toBe(null);
});

test('cancelled half way: the board is empty, the same button is there again, and again works', async () => {
  const bench = await openBench();
  const surface = await beginWriting(bench);
  const cancel = commandById('cancel-firmware');
  bench.host.writing.stage('write', 100, 24_576);
  expect(cancel.when(bench.model)).toBe(true);
  await cancel.run(bench.model, surface);
  await bench.settle();
  expect(bench.model.writing.now.value).toMatchObject({ step: 'failed', problem: { code: 'firmwareEmptied' } });
  expect(offered(bench, 'write-firmware', aboutTown(bench, USB0))).toBe('Put the firmware on');
  void bench.model.writing.begin();
  await bench.settle();
  expect(bench.host.writing.isUnderWay).toBe(true);
  bench.host.writing.finish();
  await bench.settle();
  expect(bench.model.writing.now.value?.step).toBe('done');
});

test('when cancelling would leave half a board behind it is not offered', async () => {
  const bench = await openBench();
  await beginWriting(bench);
  bench.host.writing.stage('restore');
  expect(commandById('cancel-firmware').when(bench.model)).toBe(false);
});

test('while one board is written to, no second question is put', async () => {
  const bench = await openBench(twoBoards());
  await beginWriting(bench);
  bench.host.plugged.set(USB1, 'bare');
  await bench.model.ask('connect', { board: 'harbour', port: USB1 });
  const about = { board: bench.model.board('harbour') };
  expect(offered(bench, 'write-firmware', about)).toBe(null);
  bench.model.writing.ask({ is: 'put', board: 'harbour', port: USB1 });
  expect(bench.model.writing.now.value).toMatchObject({ step: 'work', job: { board: 'town' } });
  bench.host.writing.finish();
  await bench.settle();
  expect(offered(bench, 'write-firmware', about)).toBe('Put the firmware on');
});

test('the host goes away in the middle: nothing is claimed of the writing afterwards', async () => {
  const bench = await openBench();
  await beginWriting(bench);
  bench.model.lose({ code: 'hostGone', what: 'Gone.', why: '', next: '' });
  await bench.model.attach(bench.host);
  expect(bench.model.writing.now.value).toBe(null);
  bench.host.writing.finish();
  await bench.settle();
  expect(bench.model.writing.now.value).toBe(null);
});

test('a new board takes the place of a lost one at a free port, also at the port of the old one', async () => {
  const bench = await openBench();
  bench.host.plugged.set(USB1, 'bare');
  await bench.model.ask('connect', { board: 'town', port: USB0 });
  await bench.model.ask('listPorts', {}).then((found) => {
    if (found.ok) bench.model.ports.value = found.value;
  });
  expect(offered(bench, 'replace-board', aboutTown(bench, USB1))).toBe(null);
  bench.host.boards[0]?.become({ link: 'lost' });
  const words = 'Put this board in the place of Town board';
  expect(offered(bench, 'replace-board', aboutTown(bench, USB0))).toBe(words);
  expect(offered(bench, 'replace-board', aboutTown(bench, USB1))).toBe(words);
  expect(offered(bench, 'replace-board', aboutTown(bench, 'virtual:town'))).toBe(null);

  const surface = makeSurface();
  await commandById('replace-board').run(bench.model, surface, aboutTown(bench, USB1));
  expect(bench.model.writing.now.value).toEqual({ step: 'ask', job: { is: 'replace', board: 'town', port: USB1 } });
  void bench.model.writing.begin();
  await bench.settle();
  bench.host.writing.stage('restore');
  bench.host.writing.finish();
  await bench.settle();
  expect(bench.host.calls.at(-1)).toEqual({ name: 'replaceBoard', args: { board: 'town', port: USB1 } });
  expect(state(bench)).toMatchObject({ port: USB1, link: 'ready', running: 'same', kept: 'same' });
});

test('a port that another board of the layout holds cannot be taken for a replacement', async () => {
  const bench = await openBench(twoBoards());
  bench.host.plugged.set(USB1, 'ours');
  await bench.model.ask('connect', { board: 'harbour', port: USB1 });
  bench.host.boards[0]?.become({ link: 'lost' });
  expect(offered(bench, 'replace-board', aboutTown(bench, USB1))).toBe(null);
  expect(offered(bench, 'replace-board', aboutTown(bench, USB0))).not.toBe(null);
});

test('the first board of all replaces nothing; one of which there is a copy can be replaced while it is away', async () => {
  const bench = await openBench();
  bench.host.plugged.set(USB0, 'bare');
  await bench.model.ask('connect', { board: 'town', port: USB0 });
  expect(offered(bench, 'replace-board', aboutTown(bench, USB0))).toBe(null);
  bench.host.boards[0]?.become({ copiedAt: '2026-11-25T19:02:00.000Z' });
  expect(offered(bench, 'replace-board', aboutTown(bench, USB0))).toBe('Put this board in the place of Town board');
});

test('each of two boards has its own buttons; the keys act on the one at hand', async () => {
  const bench = await openBench(twoBoards());
  const { model, host } = bench;
  await model.ask('connect', { board: 'harbour', port: USB0 });
  const harbour = { board: model.board('harbour') };
  expect(model.boardAtHand.value?.id).toBe('town');
  await commandById('send').run(model, makeSurface(), harbour);
  expect(host.calls.at(-1)).toEqual({ name: 'send', args: { board: 'harbour' } });
  await bench.settle();
  await commandById('keep').run(model, makeSurface(), harbour);
  expect(host.calls.at(-1)).toEqual({ name: 'keep', args: { board: 'harbour' } });
  await commandById('pause').run(model, makeSurface());
  expect(host.calls.at(-1)).toEqual({ name: 'pause', args: { board: 'town', on: true } });
});

test('quiet, lost and switched off read differently', async () => {
  const bench = await openBench();
  const board = bench.host.boards[0];
  await bench.model.ask('connect', { board: 'town', port: USB0 });
  board?.become({ quiet: true });
  expect(boardWords(state(bench))).toBe('not answering');
  board?.become({ quiet: false, link: 'lost' });
  expect(boardWords(state(bench))).toBe('lost, looking for it');
  board?.become({ virtual: true, powered: false });
  expect(boardWords(state(bench))).toBe('switched off');
});

test('the chip with half the current is told apart; the usual ones only say what they carry', async () => {
  const bench = await openBench();
  const board = bench.host.boards[0];
  await bench.model.ask('connect', { board: 'town', port: USB0 });
  expect(chipWords(state(bench))).toEqual({ name: 'ATmega328P', current: null, isLess: false });
  board?.become({ silicon: { name: 'ATmega328PB', totalMilliamps: 100 } });
  expect(chipWords(state(bench))).toEqual({
    name: 'ATmega328PB',
    current: '100 mA in all, half of an ATmega328P',
    isLess: true,
  });
  board?.become({ silicon: { name: 'ATmega2560', totalMilliamps: 200 } });
  expect(chipWords(state(bench))).toEqual({ name: 'ATmega2560', current: '200 mA in all', isLess: false });
});

test('the moment of a copy is read in the time of this computer', () => {
  expect(dayTime(new Date(2026, 10, 25, 19, 2, 41).toISOString())).toBe('25 Nov 19:02');
  expect(dayTime('soon')).toBe('soon');
});
