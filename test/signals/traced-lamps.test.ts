/**
 * Railway signals and lamp groups on the shipped firmware image in the emulated
 * chip, their inputs at random: every lamp edge as the reference interpreter
 * has it. `AMBERWICK_EVENTS` of the inputs' changes, at most 2,000.
 */
import { describe, expect, it } from 'vitest';
import { BoardSession } from '../../electron/host/session.ts';
import { upload } from '../../electron/host/upload.ts';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import { CPU_HZ } from '../../electron/host/virtual/chips.ts';
import { Conflicts } from '../../electron/host/virtual/conflicts.ts';
import { DirectLine } from '../../electron/host/virtual/direct.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { LampWires } from '../../electron/host/virtual/lamps.ts';
import { rehearse } from '../../electron/host/virtual/rehearsal.ts';
import { tracing } from '../../shared/interpreter/trace.ts';
import { makeBeacons } from '../../shared/layout/templates/beacons.ts';
import { makeColourLight, makeSignalLine } from '../../shared/layout/templates/colour-light.ts';
import { makeFlicker } from '../../shared/layout/templates/flicker.ts';
import { makeIndicators } from '../../shared/layout/templates/indicators.ts';
import { makeStreetLamps } from '../../shared/layout/templates/street-lamps.ts';
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { seededDice } from '../fixtures/dice.ts';
import { aspects, boardOf } from './lamp-film.ts';

const EVENTS = Math.min(2000, Number(process.env.AMBERWICK_EVENTS ?? 60));
const MS = CPU_HZ / 1000;
/** Emulation is slow on a busy computer; nothing is asserted about it. */
const PATIENCE = { timeout: 120_000 + EVENTS * 2000 };

/** An input that becomes active or not between the ticks `ms` and `ms` + 1. */
interface Touch {
  readonly ms: number;
  readonly input: number;
  readonly active: boolean;
}

/** About one a second; one in three follows so soon that the debounce may swallow it. */
function touches(inputs: number, seed: number): Touch[] {
  const dice = seededDice(seed);
  let ms = 500;
  return Array.from({ length: EVENTS }, () => {
    ms += dice.int(0, 2) === 0 ? dice.int(1, 40) : dice.int(100, 2500);
    return { ms, input: dice.int(0, inputs - 1), active: dice.int(0, 1) === 1 };
  });
}

function flash(): Uint8Array {
  const image = loadImage('atmega328p');
  if (!image.ok) throw new Error(image.error);
  return image.flash;
}

function imageOf(table: BoardTable): Uint8Array {
  const { bytes } = encodeTable(table);
  if (bytes === null) throw new Error('the table does not fit');
  return bytes;
}

interface Seen {
  readonly lamp: number;
  readonly lit: boolean;
  readonly cycles: number;
}

/**
 * Runs a table on the board and in the reference. `mark` is a lamp that goes dark by itself after the start, before
 * anything is touched: this edge tells which tick of the board is which of the reference.
 */
async function trace(table: BoardTable, script: readonly Touch[], mark: number) {
  const board = new VirtualBoard({ chip: table.chip, flash: flash() });
  const seen: Seen[] = [];
  const conflicts = new Conflicts(table);
  const wires = new LampWires(table, (lamp, lit, cycles) => {
    seen.push({ lamp, lit, cycles });
    conflicts.lamp(lamp, lit, cycles);
  });
  board.onPin = (pin, level, cycles) => wires.pin(pin, level, cycles);
  board.power(true);
  const line = new DirectLine(board);
  const session = new BoardSession(line, { clock: line });
  const greeting = await line.until(session.greet());
  if (!greeting.ok) throw new Error(JSON.stringify(greeting.error));
  const started = await line.until(upload(session, imageOf(table)));
  if (!started.ok) throw new Error(JSON.stringify(started.error));
  await session.close();

  const wanted: { ms: number; lamp: number; lit: boolean }[] = [];
  const reference = tracing(table, (edge) => wanted.push(edge));
  reference.start();
  reference.run(400);
  board.run(400 * MS);
  const [here, there] = [seen, wanted].map((edges: readonly { lamp: number; lit: boolean }[]) =>
    edges.findIndex((edge) => edge.lamp === mark && !edge.lit),
  );
  const origin = (seen[here ?? -1]?.cycles ?? 0) - (wanted[there ?? -1]?.ms ?? 0) * MS;

  for (const { ms, input, active } of script) {
    const pin = table.inputs[input];
    if (pin === undefined) throw new Error(`no input ${input}`);
    board.runUntil(origin + (ms + 0.5) * MS);
    // Buttons to ground on the chip's own pull-ups.
    board.setInput(pin.pin, active ? 0 : null);
    reference.run(ms - reference.ran);
    reference.setRaw(input, active);
  }
  const end = (script.at(-1)?.ms ?? 0) + 5000;
  board.runUntil(origin + (end + 0.5) * MS);
  conflicts.finish(board.cycles);
  reference.run(end - reference.ran);
  return { seen, wanted, origin, conflicts: conflicts.seen };
}

/** The edges of one lamp after the first 100 ms as text, to whole ms of the reference. */
function edgesOf(lamp: number, edges: readonly { lamp: number; lit: boolean; ms: number }[]): string[] {
  return edges.flatMap((edge) => (edge.lamp === lamp && edge.ms > 100 ? [`${edge.ms} ${edge.lit}`] : []));
}

async function compare(board: CompiledBoard, seed: number, mark: number) {
  const { table } = board;
  const { seen, wanted, origin, conflicts } = await trace(table, touches(table.inputs.length, seed), mark);
  // A tick in which several sites change shows it late, by half a millisecond here; none shows it early.
  const had = seen.map(({ lamp, lit, cycles }) => ({ lamp, lit, ms: Math.floor((cycles - origin) / MS + 0.2) }));
  for (const [lamp, { name }] of table.lamps.entries()) {
    expect([name, ...edgesOf(lamp, had)]).toEqual([name, ...edgesOf(lamp, wanted)]);
  }
  expect(conflicts).toBe(0);
  return had;
}

describe('on the shipped image, inputs at random', PATIENCE, () => {
  // Its rows time it, not the flasher, which may begin a tick earlier on a board (PROTOCOL.md chapter 4, Start).
  const MARK = makeBeacons({ id: 'mark', name: 'Mark', board: 'b', pins: ['D2'], flash: 'double-together' });

  it('a line of signals of four, three and two aspects with shared detectors', async () => {
    const line = makeSignalLine(
      [
        { id: 'a', name: 'First', board: 'b', aspects: 4, pins: ['D3', 'D4', 'D5', 'D6'] },
        { id: 'b', name: 'Second', board: 'b', aspects: 3, pins: ['D7', 'D8', 'D9'] },
        { id: 'c', name: 'Third', board: 'b', aspects: 2, pins: ['D10', 'D11'] },
      ],
      ['near', 'middle', 'far'],
    );
    const board = boardOf([MARK, ...line], { inputs: ['near', 'middle', 'far'] });
    const edges = await compare(board, 3, 0);
    // All four aspects of the first signal have been on the pins: what is lit once a tick is over.
    const lit = board.table.lamps.map(() => false);
    const shown = new Set<string>();
    for (const [index, edge] of edges.entries()) {
      lit[edge.lamp] = edge.lit;
      if (edges[index + 1]?.ms !== edge.ms) shown.add(aspects(board, lit).split(' ')[1] ?? '');
    }
    shown.delete('....');
    expect(shown).toEqual(new Set(['...R', '..Y.', 'Y.Y.', '.G..']));
  });

  it('a signal with one detector, indicators, beacons, a fire and street lamps, each with its inputs', async () => {
    const board = boardOf(
      [
        MARK,
        {
          ...makeColourLight({ id: 's', name: 'Quay', board: 'b', pins: ['D3', 'D4', 'D5'], passing: 'train' }),
          section: 2,
        },
        makeIndicators({
          id: 'taxi',
          name: 'Taxi',
          board: 'b',
          left: 'D6',
          right: 'D7',
          switches: { left: 'left', right: 'right', hazard: 'hazard' },
        }),
        makeBeacons({ id: 'e', name: 'Engine', board: 'b', pins: ['D8', 'D9'], flash: 'double', switch: 'call' }),
        makeFlicker({ id: 'f', name: 'Fire', board: 'b', effect: 'fire', pins: ['D10'], switch: 'call' }),
        { ...makeStreetLamps({ id: 'p', name: 'Prom', board: 'b', pins: ['D11', 'D12'], when: 'night' }), settle: 1 },
      ],
      { inputs: ['train', 'left', 'right', 'hazard', 'call', 'dusk'], night: 'dusk' },
    );
    const edges = await compare(board, 7, 0);
    // Every lamp of the board has been lit on its pin.
    expect(new Set(edges.filter((edge) => edge.lit).map((edge) => edge.lamp)).size).toBe(board.table.lamps.length);
  });
});

it('what runs by itself: signals by time, a welder, a double flash and street lamps, every edge within a tick', async () => {
  const board = boardOf([
    {
      ...makeColourLight({ id: 's', name: 'Quay', board: 'b', aspects: 4, pins: ['D2', 'D3', 'D4', 'D5'] }),
      section: 2,
      trains: { shortest: 3, longest: 9 },
    },
    makeFlicker({ id: 'w', name: 'Boatyard', board: 'b', effect: 'welding', pins: ['D6'] }),
    makeBeacons({ id: 'e', name: 'Engine', board: 'b', pins: ['D7', 'D8'], flash: 'double' }),
    makeStreetLamps({ id: 'p', name: 'Prom', board: 'b', pins: ['D9', 'D10', 'D11'] }),
  ]);
  const result = await rehearse({ flash: flash(), table: board.table, image: imageOf(board.table), ms: 40_000 });
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  expect(result.rehearsal).toMatchObject({ wrong: 0, firstWrong: null, conflicts: 0 });
  expect(result.rehearsal.edges).toBeGreaterThan(600);
  expect(result.rehearsal.worst).toBeLessThan(1000);
});
