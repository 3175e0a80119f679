/** Planning the wiring from the panel's side: lamps carried by keyboard, edits undone, figures read. */
import { describe, expect, it } from 'vitest';
import { COMMANDS, commandById } from '../../renderer/commands/all.ts';
import { Wiring } from '../../renderer/model/wiring.ts';
import { readMeter, SupplyWatch } from '../../renderer/supply/reading.ts';
import { readFigure } from '../../renderer/wiring/figure.ts';
import { findingsOfLamp } from '../../renderer/wiring/findings.ts';
import { chipRows, pinRows, runsOf } from '../../renderer/wiring/rows.ts';
import { chainWay, largerWay, layOut, sharingWays } from '../../renderer/wiring/what-if.ts';
import { colourOf, outputWords, resistorWords, shortName } from '../../renderer/wiring/words.ts';
import { loadCurrents } from '../../shared/electrics/resistors.ts';
import { addChain } from '../../shared/layout/wiring/chain.ts';
import { setCircuit, wireColour } from '../../shared/layout/wiring/details.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import type { Outcome, SupplyReading } from '../../shared/workbench/contract.ts';
import { type Bench, openBench, PENMARROW } from './example.ts';

const RED = 'sites[0].phases[0].lamps.red';

async function bench(text = PENMARROW): Promise<Bench & { wiring: Wiring }> {
  const opened = await openBench(text);
  return { ...opened, wiring: new Wiring(opened.model) };
}

function wiredOf(wiring: Wiring) {
  const { value } = wiring.wired;
  if (!value) throw new Error('nothing wired');
  return value;
}

const on = (wiring: Wiring, path: string): string | undefined =>
  wiredOf(wiring).outputs.find(({ use }) => use.is === 'lamp' && use.lamp.path === path)?.name;

/** Both heads of Fore Street on outputs of their own. */
function apart(): string {
  const layout = JSON.parse(PENMARROW);
  const [cross] = layout.sites;
  const { lamps } = cross.phases[0];
  delete cross.phases[0].lamps;
  cross.heads[0].lamps = lamps;
  cross.heads[1].lamps = { red: { pin: 'A3' }, amber: { pin: 'A4' }, green: { pin: 'A5' } };
  return JSON.stringify(layout);
}

describe('a lamp on its way', () => {
  it('goes to a free output in one step of undo', async () => {
    const { wiring, model } = await bench();
    wiring.pickUp(RED);
    expect(wiring.said.value).toMatch(/^Picked up Market Cross, Fore Street red\. Arrow keys/);
    wiring.hover(17);
    expect(wiring.said.value).toBe('A3: free.');
    expect(await wiring.putDown()).toBe(true);
    expect(on(wiring, RED)).toBe('A3');
    expect(wiring.said.value).toBe('Moved Market Cross, Fore Street red from D2 to A3.');
    expect(model.log.value.at(-1)?.text).toBe(wiring.said.value);
    await model.history.undo();
    expect([on(wiring, RED), model.text.value]).toEqual(['D2', PENMARROW]);
    await model.history.redo();
    expect(on(wiring, RED)).toBe('A3');
  });

  it('changes places with another, and says so before it does', async () => {
    const { wiring } = await bench();
    wiring.pickUp(RED);
    wiring.hover(5);
    expect(wiring.said.value).toBe('D5: Market Cross, Quay Hill red; the two would change places.');
    await wiring.putDown();
    expect([on(wiring, RED), on(wiring, 'sites[0].phases[1].lamps.red')]).toEqual(['D5', 'D2']);
  });

  it('stays where it was when it is let go, put down there, or refused', async () => {
    const { wiring, model } = await bench();
    wiring.pickUp(RED);
    wiring.hover(17);
    wiring.letGo();
    expect([wiring.carried.value, wiring.said.value]).toEqual([
      null,
      'Left Market Cross, Fore Street red where it was.',
    ]);
    wiring.pickUp(RED);
    expect(await wiring.putDown()).toBe(false);
    wiring.pickUp(RED);
    wiring.hover(0);
    expect(wiring.said.value).toBe('D0 is the serial line to the computer: no lamp can go there.');
    expect(await wiring.putDown()).toBe(false);
    expect(wiring.refusal.value.map(({ code }) => code)).toEqual(['not-for-lamps']);
    expect([on(wiring, RED), model.history.canUndo.value]).toEqual(['D2', false]);
    wiring.pickUp('nowhere');
    expect(wiring.carried.value).toBeNull();
  });

  it('is shown with what it hangs on, in the words of the list', async () => {
    const { wiring } = await bench();
    const { lamps, loads, outputs } = wiredOf(wiring);
    const [red] = lamps;
    const load = red && loads.get(red.path);
    if (!red || !load) throw new Error('no lamp');
    expect([shortName(red, load), colourOf(red, load), colourOf(red, undefined)]).toEqual([
      'Fore Street, red',
      'red',
      'red',
    ]);
    expect(resistorWords(load)).toBe('680 Ω: blue, grey, brown, gold');
    expect(outputs.slice(0, 3).map(outputWords)).toEqual([
      'D0: serial line to the computer',
      'D1: serial line to the computer',
      'D2: Market Cross, Fore Street red',
    ]);
    const words = (resistor: number | 'fitted' | null) =>
      resistorWords({ ...load, circuit: { ...load.circuit, resistor } });
    expect([words('fitted'), words(null), words(1234567)]).toEqual(['in the lamp', 'none will do', '1.235 MΩ']);
  });
});

describe('the sheet', () => {
  it('shows the board at hand until another one is chosen, and forgets nothing of a board that went', async () => {
    const layout = JSON.parse(PENMARROW);
    layout.boards.push({ id: 'harbour', name: 'Harbour board', chip: 'atmega2560' });
    layout.sites[2].board = 'harbour';
    const { wiring, model } = await bench(JSON.stringify(layout));
    expect(wiring.board.value).toBe('town');
    model.choose('harbour-crossing');
    expect(wiring.board.value).toBe('harbour');
    wiring.take('town');
    expect(wiring.board.value).toBe('town');
    await model.change(PENMARROW, 'Opened the example.');
    wiring.take('harbour');
    expect(wiring.board.value).toBe('town');
  });

  it('lists lamps even while the layout has errors', async () => {
    const layout = JSON.parse(PENMARROW);
    delete layout.sites[2].beacons[0].pin;
    const { wiring } = await bench(JSON.stringify(layout));
    const { lamps, loads, compiled } = wiredOf(wiring);
    expect([lamps.length, loads.size, compiled]).toEqual([14, 0, null]);
    wiring.pickUp('sites[2].beacons[0]');
    wiring.hover(15);
    await wiring.putDown();
    expect(wiredOf(wiring).loads.size).toBe(14);
  });

  it('draws every output of both chips and of the chain once, lamps of a site side by side', async () => {
    const { wiring, model } = await bench();
    const { board, outputs, layout } = wiredOf(wiring);
    const rows = pinRows(board.chip, outputs);
    expect(rows.flatMap((row) => row.outputs.map(({ output }) => output))).toEqual(outputs.map(({ output }) => output));
    expect(
      rows.map((row) =>
        runsOf(row.outputs)
          .filter(({ site }) => site)
          .map((run) => [run.site, run.outputs.length]),
      ),
    ).toEqual([
      [
        ['market-cross', 6],
        ['chapel-corner', 5],
      ],
      [
        ['chapel-corner', 1],
        ['harbour-crossing', 2],
      ],
    ]);
    const chained = addChain({ ...layout, boards: [{ ...board, chip: 'atmega2560' }] }, 'town', {
      sites: [],
      chips: 2,
    });
    if ('findings' in chained) throw new Error('refused');
    await model.change(writeLayout(chained.layout), chained.said);
    const mega = wiredOf(wiring);
    const all = [...pinRows('atmega2560', mega.outputs), ...chipRows(mega.outputs)];
    expect(all.flatMap((row) => row.outputs)).toEqual(mega.outputs);
    expect(chipRows(mega.outputs).map(({ name }) => name)).toEqual(['Chip 1', 'Chip 2']);
  });

  it('has its command, which opens and closes it', async () => {
    const { model } = await bench();
    expect(commandById('plan-wiring').when(model)).toBe(true);
    expect(COMMANDS.filter(({ shortcut }) => shortcut === 'Shift+W')).toHaveLength(1);
  });
});

describe('what would help, in numbers', () => {
  it('lays out anew what is scattered, and has nothing to move where all is in order', async () => {
    const { wiring } = await bench();
    expect(layOut(wiredOf(wiring)).moves).toEqual([]);
    wiring.pickUp(RED);
    wiring.hover(19);
    await wiring.putDown();
    const { done, moves } = layOut(wiredOf(wiring));
    expect(moves.map(({ lamp }) => lamp.path)).toEqual([RED]);
    if (!done) throw new Error('refused');
    await wiring.apply(done);
    expect(on(wiring, RED)).toBe('D2');
  });

  it('says what sharing frees and what the output then carries: twice the current', async () => {
    const { wiring } = await bench(apart());
    const wired = wiredOf(wiring);
    const alone = Math.max(
      ...[...wired.loads.values()]
        .filter(({ site, heads }) => site === 'market-cross' && heads.length === 1)
        .map((load) => loadCurrents(load).output),
    );
    const [way, ...more] = sharingWays(wired);
    expect(more).toEqual([]);
    expect(way?.brings).toBe('3 outputs come free; the wires of the heads are joined.');
    expect(way?.costs).toContain(`D3 then carries ${(2 * alone).toFixed(1)} mA`);
    if (!way) throw new Error('no way');
    await wiring.apply(way.done);
    expect(wiredOf(wiring).outputs.filter(({ use }) => use.is === 'free')).toHaveLength(4);
    expect(sharingWays(wiredOf(wiring))).toEqual([]);
  });

  it('says what a chain brings, with its pins and chips, and what the larger board has', async () => {
    const { wiring } = await bench();
    const way = chainWay(wiredOf(wiring), ['market-cross', 'chapel-corner']);
    if (typeof way === 'string') throw new Error(way);
    expect(way.brings).toBe(
      '2 chips (74HC595): 12 outputs more free. Data, clock, latch and output enable: D2, D3, D4, D5.',
    );
    // Twelve lamps less on its pins; at most four greens and reds of two heads each at once on the first chip.
    expect(way.costs).toMatch(/^Chip 1 of the chain, through VCC carries at most \d\d\.\d mA of 70 mA\. /);
    expect(way.costs).toMatch(/The chip of the board carries 2\d\.\d mA instead of 75\.1 mA\.$/);
    const larger = largerWay(wiredOf(wiring));
    expect(larger?.brings).toBe('68 pins instead of 18; every wire stays on the pin of the same name.');
    await wiring.apply(way.done);
    if (!larger) throw new Error('no larger board');
    await wiring.apply(larger.done);
    expect(largerWay(wiredOf(wiring))).toBeNull();
  });
});

describe('electrical details', () => {
  it('change resistor and current at once, and are one step of undo each', async () => {
    const { wiring, model } = await bench();
    const { layout } = wiredOf(wiring);
    await wiring.apply(setCircuit(layout, RED, { milliamps: 2 }));
    // (5 - 1.9) V / 2 mA = 1550 ohms, next greater of E12.
    expect(wiredOf(wiring).loads.get(RED)?.circuit.resistor).toBe(1800);
    await wiring.apply(wireColour(wiredOf(wiring).layout, RED, 'violet'));
    expect(wiredOf(wiring).loads.get(RED)?.wire).toBe('violet');
    await model.history.undo();
    await model.history.undo();
    expect(model.text.value).toBe(PENMARROW);
  });

  it('that are too much for a pin, or for the supply, are told at the lamp and nowhere else on the list', async () => {
    const { wiring, model } = await bench();
    const told = (path: string) =>
      findingsOfLamp(model.open.value.findings, path).map(({ code, severity }) => [severity, code]);
    expect(told(RED)).toEqual([]);
    // (5 - 1.9) V / 30 mA: 120 ohms, 25.8 mA in each of two heads; 40 mA is the absolute maximum (Atmel 8271 29.1).
    await wiring.apply(setCircuit(wiredOf(wiring).layout, RED, { milliamps: 30 }));
    expect(told(RED).map(([severity]) => severity)).toEqual(['error']);
    await wiring.apply(setCircuit(wiredOf(wiring).layout, RED, { count: 3, wired: 'series' }));
    expect(told(RED)).toHaveLength(1);
    expect(
      wiredOf(wiring)
        .lamps.filter(({ path }) => path !== RED)
        .flatMap(({ path }) => told(path)),
    ).toEqual([]);
    await model.history.undo();
    await model.history.undo();
    expect(told(RED)).toEqual([]);
  });

  it('are read as people write them', () => {
    const ohms = (text: string) => readFigure(text, 'ohms');
    expect(['470', '4.7k', '4k7', '4,7 k', '1M', '680 Ω', ''].map(ohms)).toEqual([
      470,
      4700,
      4700,
      4700,
      1e6,
      680,
      undefined,
    ]);
    expect(['0', '-3', 'k', 'red', '4k7k', '470 V1'].map(ohms)).toEqual([null, null, null, null, null, null]);
    expect([
      readFigure('2,1 V', 'volts'),
      readFigure('230', 'volts'),
      readFigure('5k', 'milliamps'),
      readFigure('5 mA', 'milliamps'),
    ]).toEqual([2.1, null, null, 5]);
  });
});

describe('the supply', () => {
  function watch(answers: Outcome<SupplyReading>[]) {
    const asked: unknown[] = [];
    const watched = new SupplyWatch('town', async (_, args) => {
      asked.push(args);
      return answers.shift() ?? { ok: false, problem: { code: 'busy', what: 'No.', why: 'No.', next: 'No.' } };
    });
    return { watched, asked };
  }
  const volts = (millivolts: number, least = millivolts, reference: number | null = null): Outcome<SupplyReading> => ({
    ok: true,
    value: { millivolts, least, reference },
  });

  it('is watched: a fall of more than 8 % is told, one from before is not', async () => {
    const { watched } = watch([volts(5000, 4000), volts(4990, 4900), volts(4980, 4500)]);
    await watched.read();
    expect([watched.span.value, watched.sag]).toEqual([{ least: 5000, most: 5000 }, null]);
    await watched.read();
    expect(watched.sag).toBeNull();
    await watched.read();
    expect(watched.sag).toBeCloseTo(0.1);
  });

  it('is calibrated with what the meter shows; what was measured before has another scale', async () => {
    const { watched, asked } = watch([volts(5400), volts(5020, 4100, 1070)]);
    await watched.read();
    expect(await watched.read(5020)).toBe(true);
    expect(asked).toEqual([{ board: 'town' }, { board: 'town', meterMillivolts: 5020 }]);
    expect([watched.span.value, watched.sag, watched.reading.value?.reference]).toEqual([
      { least: 5020, most: 5020 },
      null,
      1070,
    ]);
    expect(await watched.read()).toBe(false);
    expect(watched.problem.value?.code).toBe('busy');
  });

  it('is calibrated even while a question is on its way', async () => {
    const { watched, asked } = watch([volts(5400), volts(5020, 5020, 1070)]);
    const [first, second, calibrated] = await Promise.all([watched.read(), watched.read(), watched.read(5020)]);
    expect([first, second, calibrated, asked.length]).toEqual([true, false, true, 2]);
    expect(watched.reading.value?.millivolts).toBe(5020);
  });

  it('is read as meters show it', () => {
    expect(['5.02', '5,02 V', '4.9', '5', '3', '5.5'].map(readMeter)).toEqual([5020, 5020, 4900, 5000, 3000, 5500]);
    expect(['2.99', '5.51', '12', '', '5.0.2', 'five', '-5'].map(readMeter)).toEqual(Array(7).fill(null));
  });
});
