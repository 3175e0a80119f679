/**
 * Worker thread: runs one virtual board at the speed asked for, in short
 * slices, so that messages are read between them.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { VirtualBoard } from './board.ts';
import { CPU_HZ } from './chips.ts';
import { loadEeprom, saveEeprom } from './eeprom-file.ts';
import type { FromWorker, LevelChange, Speed, ToWorker, WorkerStart } from './messages.ts';

/** Between two slices at a measured speed, ms of wall time. */
const SLICE_MS = 5;
/** Longest slice at full speed, ms of wall time. */
const FULL_SLICE_MS = 20;
/** A board further behind than this (the computer was asleep) does not catch up, ms. */
const PATIENCE_MS = 500;
const SAVE_EVERY_MS = 200;
const TIME_EVERY_MS = 100;
const CHUNK = CPU_HZ / 1000;

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
let origin = { wall: performance.now(), cycles: 0 };
let sent: number[] = [];
let levels: LevelChange[] = [];

board.onByte = (byte) => sent.push(byte);
board.onPin = (number, level, cycles) => levels.push({ chain: false, number, level, cycles });
board.onChainBit = (number, level, cycles) => levels.push({ chain: true, number, level, cycles });
board.onEepromChange = () => {
  unsaved = true;
};

port.on('message', (message: ToWorker) => {
  if (message.type === 'bytes') board.write(message.bytes);
  else if (message.type === 'power') board.power(message.on);
  else if (message.type === 'reset') board.reset();
  else if (message.type === 'input') board.setInput(message.pin, message.level);
  else if (message.type === 'chain') board.connectChain(message.wiring);
  else if (message.type === 'speed') {
    speed = message.speed;
    origin = { wall: performance.now(), cycles: board.cycles };
  } else quit();
});

step();

function step(): void {
  if (!running) return;
  try {
    if (speed === 'full') fullSlice();
    else pacedSlice(speed);
    tell(performance.now());
  } catch (error) {
    post({ type: 'failed', cause: error instanceof Error ? error.message : String(error) });
    quit();
    return;
  }
  if (speed === 'full' && board.powered) setImmediate(step);
  else setTimeout(step, SLICE_MS);
}

function pacedSlice(times: number): void {
  const now = performance.now();
  const due = origin.cycles + (now - origin.wall) * (CPU_HZ / 1000) * times;
  if (due - board.cycles > PATIENCE_MS * (CPU_HZ / 1000) * times) {
    origin = { wall: now, cycles: board.cycles };
    return;
  }
  board.runUntil(due);
}

function fullSlice(): void {
  const end = performance.now() + FULL_SLICE_MS;
  do board.run(CHUNK);
  while (board.powered && performance.now() < end);
}

function tell(now: number): void {
  if (sent.length > 0) post({ type: 'bytes', bytes: Uint8Array.from(sent) });
  if (levels.length > 0) post({ type: 'levels', changes: levels });
  sent = [];
  levels = [];
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
