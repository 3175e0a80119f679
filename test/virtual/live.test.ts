import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SerialPort } from 'serialport';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import { openPty } from '../../electron/host/virtual/pty.ts';
import { buildProbe } from './probe.ts';

let flash: Uint8Array;
let folder: string;

beforeAll(() => {
  flash = buildProbe('atmega328p');
  folder = mkdtempSync(join(tmpdir(), 'amberwick-live-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ascii = (line: string): Uint8Array => new TextEncoder().encode(line);

/** Collects what a stream says until it holds `wanted`. */
function hears(stream: { onData(listener: (bytes: Uint8Array) => void): void }, wanted: string): Promise<string> {
  let heard = '';
  return new Promise((resolve) => {
    stream.onData((bytes) => {
      heard += String.fromCharCode(...bytes);
      if (heard.includes(wanted)) resolve(heard);
    });
  });
}

test('a board in its thread starts with the switch, echoes, and keeps its EEPROM in a file', async () => {
  const eepromFile = join(folder, 'deep', 'board.eeprom');
  const board = new LiveBoard({ chip: 'atmega328p', flash, eepromFile });
  const heard = hears(board, 'w');
  const started = hears(board, '\x01');
  board.power(true);
  await started;
  board.write(ascii('w'));
  await heard;
  await board.close();
  const kept = readFileSync(eepromFile);
  expect(kept.length).toBe(1024);
  expect(kept[5]).toBe(0x3c);
});

test('closing is told once, also to who asks later, and nothing goes out afterwards', async () => {
  const board = new LiveBoard({ chip: 'atmega328p', flash });
  const causes: string[] = [];
  board.onClose((cause) => causes.push(cause));
  await board.close();
  board.write(ascii('x'));
  board.onClose((cause) => causes.push(`later: ${cause}`));
  expect(causes).toEqual(['The virtual board was closed.', 'later: The virtual board was closed.']);
});

test('at full speed the levels come with their exact cycles', async () => {
  const board = new LiveBoard({ chip: 'atmega328p', flash, speed: 'full' });
  const stamps: number[] = [];
  const done = new Promise<void>((resolve) => {
    board.onLevels = (changes) => {
      for (const change of changes) if (change.number === 2) stamps.push(change.cycles);
      if (stamps.length > 1000) resolve();
    };
  });
  board.setInput(3, 1);
  board.power(true);
  await done;
  await board.close();
  const steps = stamps.slice(2, 1000).map((stamp, index) => stamp - (stamps[index + 1] ?? 0));
  expect(new Set(steps)).toEqual(new Set([16_000]));
});

test('through a pseudo-terminal the real serial binding talks to it', async () => {
  const board = new LiveBoard({ chip: 'atmega328p', flash });
  const front = await openPty(board);
  if (!front.ok) throw new Error(front.error);
  const port = new SerialPort({ path: front.pty.path, baudRate: 57600, autoOpen: false });
  await new Promise<void>((resolve, reject) => port.open((error) => (error ? reject(error) : resolve())));
  const heard = new Promise<string>((resolve) => {
    let text = '';
    port.on('data', (bytes: Buffer) => {
      text += bytes.toString('latin1');
      if (text === '\x01') port.write('who goes there');
      if (text.includes('there')) resolve(text);
    });
  });
  board.power(true);
  // 'w' writes the EEPROM and is echoed like every other byte.
  expect((await heard).replace('\x01', '')).toContain('o goes there');
  await new Promise((resolve) => port.close(resolve));
  await front.pty.close();
  await board.close();
});
