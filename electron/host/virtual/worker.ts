/**
 * Worker thread: runs one virtual board at the speed asked for, in short
 * slices, so that messages are read between them.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { VirtualBoard } from './board.ts';
import { CPU_HZ } from './chips.ts';
import { loadEeprom, saveEeprom } from './eeprom-file.ts';
import { GlowWatch } from './glow-watch.ts';
import type { FromWorker, LevelChange, Speed, ToWorker, WorkerStart } from './messages.ts';

/**
 * Pauses between two slices of a board that keeps its pace, ms of wall time: while bytes
 * go to and fro, else, and without power. Waking up costs more than the board itself.
 */
const PAUSE_MS = { talking: 4, quiet: 20, off: 50 } as const;
/** A conversation counts as going on for this long after its last byte, ms. */
const TALK_MS = 100;
/** Longest slice, ms of wall time and of board time: a host must get a word in before a board counts it as gone. */
const SLICE_WALL_MS = 20;
const SLICE_BOARD_MS = 1000;
/** A board further behind than this, ms of wall time, does not catch up: the computer is too slow or was asleep. */
const PATIENCE_MS = 100;
/**
 * A hurried board does not run away from a host that is only slow: after so much board time without a word it
 * waits, as long as the last word is not older than this in wall time. A board counts its host as gone after 5,000.
 */
const WORDLESS_BOARD_MS = 3000;
const WORDLESS_WALL_MS = 1000;
const SAVE_EVERY_MS = 200;
const TIME_EVERY_MS = 100;
const CYCLES_PER_MS = CPU_HZ / 1000;

const start = workerData as WorkerStart;
const port = parentPort;
if (!port) throw new Error('the virtual board worker is no main program');

const stored = start.eepromFile === null ? null : loadEeprom(start.eepromFile);
const board = new VirtualBoard({
  chip: start.chip,
  flash: start.flash,
  supplyMillivolts: start.supplyMillivolts,
  ...(stored ? { eeprom: stored } : {}),
});

let speed: Speed = start.speed;
let running = true;
let unsaved = false;
let savedAt = 0;
let toldAt = 0;
let timer: NodeJS.Timeout | null = null;
let origin = { wall: performance.now(), cycles: 0 };
let lastWord = { wall: Number.NEGATIVE_INFINITY, cycles: 0 };
let sent: number[] = [];
let levels: LevelChange[] = [];
let watch: GlowWatch | null = null;

board.onByte = (byte) => sent.push(byte);
board.onPin = (number, level, cycles) => levels.push({ chain: false, number, level, cycles });
board.onChainBit = (number, level, cycles) => levels.push({ chain: true, number, level, cycles });
board.onEepromChange = () => {
  unsaved = true;
};

port.on('message', (message: ToWorker) => {
  if (message.type === 'bytes') {
    lastWord = { wall: performance.now(), cycles: board.cycles };
    board.write(message.bytes);
  } else if (message.type === 'power') board.power(message.on);
  else if (message.type === 'reset') board.reset();
  else if (message.type === 'input') board.setInput(message.pin, message.level);
  else if (message.type === 'chain') board.connectChain(message.wiring);
  else if (message.type === 'circuit') {
    const circuit = board.connectCircuit(message.plan);
    watch = circuit && new GlowWatch(board, circuit);
    if (!watch) post({ type: 'glow', glow: null });
  } else if (message.type === 'speed') {
    speed = message.speed;
    origin = { wall: performance.now(), cycles: board.cycles };
  } else return quit();
  // What was asked is not kept waiting for the end of a pause.
  if (timer) {
    clearTimeout(timer);
    step();
  }
});

step();

function step(): void {
  timer = null;
  if (!running) return;
  let behind = false;
  try {
    behind = !waitsForHost() && slice(speed === 'full' ? Number.POSITIVE_INFINITY : dueNow(speed));
    tell(performance.now());
  } catch (error) {
    post({ type: 'failed', cause: error instanceof Error ? error.message : String(error) });
    quit();
    return;
  }
  if (behind) setImmediate(step);
  else timer = setTimeout(step, pause());
}

function waitsForHost(): boolean {
  if (speed !== 'full' && speed <= 1) return false;
  const wordless = board.cycles - lastWord.cycles > WORDLESS_BOARD_MS * CYCLES_PER_MS;
  return wordless && board.powered && performance.now() - lastWord.wall < WORDLESS_WALL_MS;
}

function pause(): number {
  if (!board.powered) return PAUSE_MS.off;
  return performance.now() - lastWord.wall < TALK_MS ? PAUSE_MS.talking : PAUSE_MS.quiet;
}

/** Cycle at which a board of this speed should be now. */
function dueNow(times: number): number {
  const wall = performance.now();
  const due = origin.cycles + (wall - origin.wall) * CYCLES_PER_MS * times;
  const most = board.cycles + PATIENCE_MS * CYCLES_PER_MS * times;
  if (due <= most) return due;
  // What is beyond that is forgotten; the board goes on from where it is.
  origin = { wall, cycles: most };
  return most;
}

/** Runs towards `due`, for one slice at most; true when it is not there yet. */
function slice(due: number): boolean {
  const end = performance.now() + SLICE_WALL_MS;
  const until = Math.min(due, board.cycles + SLICE_BOARD_MS * CYCLES_PER_MS);
  // Without power time passes at once: then there is nothing to be fast about.
  if (!board.powered) {
    if (due !== Number.POSITIVE_INFINITY) board.runUntil(due);
    return false;
  }
  do board.runUntil(Math.min(until, board.cycles + CYCLES_PER_MS));
  while (board.cycles < until && board.powered && performance.now() < end);
  return board.powered && board.cycles < due;
}

function tell(now: number): void {
  // What a real board has answered for is in its memory; so nothing leaves this one before it is on the disk.
  if (unsaved && sent.length > 0) save(now);
  if (sent.length > 0) post({ type: 'bytes', bytes: Uint8Array.from(sent) });
  if (levels.length > 0) post({ type: 'levels', changes: levels });
  sent = [];
  levels = [];
  const glow = watch?.look(now) ?? null;
  if (glow) post({ type: 'glow', glow });
  if (unsaved && now - savedAt > SAVE_EVERY_MS) save(now);
  if (now - toldAt < TIME_EVERY_MS) return;
  toldAt = now;
  post({ type: 'time', cycles: board.cycles, powered: board.powered });
}

function save(now: number): void {
  unsaved = false;
  savedAt = now;
  if (start.eepromFile !== null) saveEeprom(start.eepromFile, board.eeprom.memory);
}

function quit(): void {
  running = false;
  if (unsaved) save(performance.now());
  port?.close();
}

function post(message: FromWorker): void {
  port?.postMessage(message);
}
