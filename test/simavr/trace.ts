/** What left a board in one story, in either emulator. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import type { Level } from '../../electron/host/virtual/chain.ts';
import { CHIPS } from '../../electron/host/virtual/chips.ts';
import { manifest, shippedFlash } from '../timing/rig.ts';
import { buildRig } from './build.ts';
import type { PinEdge } from './outputs.ts';
import type { Story } from './story.ts';

export interface Trace {
  readonly pins: PinEdge[];
  /** Bytes from the board, as text. */
  readonly text: string;
  readonly eeprom: string;
}

/** At the rate of the line, in the emulator that the app ships. */
const LINE_BYTE_CYCLES = 160_000_000 / 57_600;

export function underAvr8js(story: Story): Trace {
  const { chip, eeprom } = story;
  const board = new VirtualBoard({ chip, flash: shippedFlash(chip), ...(eeprom ? { eeprom } : {}) });
  const pins: PinEdge[] = [];
  let text = '';
  board.onPin = (pin, level, cycles) => pins.push({ cycles, pin, level });
  board.onByte = (byte) => {
    text += String.fromCharCode(byte);
  };
  for (const event of story.events) {
    board.runUntil(event.what === 'byte' ? event.at - Math.ceil(LINE_BYTE_CYCLES) : event.at);
    if (event.what === 'power') board.power(event.on);
    else if (event.what === 'reset') board.reset();
    else if (event.what === 'byte') board.write(Uint8Array.of(event.byte));
    else if (event.what === 'pin') board.setInput(event.pin, event.level);
  }
  return { pins, text, eeprom: Buffer.from(board.eeprom.memory).toString('hex').toUpperCase() };
}

/** libsimavr; the commands and lines are those of rig.c. Throws where it says that something is wrong. */
export function underSimavr(story: Story): Trace {
  const { chip, eeprom } = story;
  const portBits = CHIPS[chip].pins;
  const commands = eeprom ? [`eeprom ${Buffer.from(eeprom).toString('hex')}`] : [];
  for (const event of story.events) {
    if (event.what === 'byte') commands.push(`feed ${event.at} ${event.byte.toString(16)}`);
    else if (event.what === 'pin') commands.push(`pin ${event.at} ${portBits[event.pin]} ${event.level}`);
    else commands.push(`run ${event.at}`);
    if (event.what === 'power') commands.push(`power ${Number(event.on)}`);
    if (event.what === 'reset') commands.push('reset');
  }
  const image = fileURLToPath(new URL(`../../firmware/images/${manifest(chip).file}`, import.meta.url));
  const input = `${commands.join('\n')}\ndump\n`;
  const { status, stdout, stderr } = spawnSync(buildRig(), [chip, image], {
    input,
    encoding: 'utf8',
    maxBuffer: 1 << 30,
  });
  const lines = stdout.split('\n');
  if (status !== 0) throw new Error(`the rig ended with ${status}: ${lines.at(-2)} ${stderr}`);
  const pinOf = new Map(portBits.map((bit, pin) => [bit, pin]));
  const trace = { pins: [] as PinEdge[], text: '', eeprom: '' };
  for (const line of lines) {
    const [mark, first, second, third] = line.split(' ');
    if (mark === 'b') trace.text += String.fromCharCode(Number.parseInt(second ?? '', 16));
    else if (mark === 'e') trace.eeprom = first ?? '';
    else if (mark === 'p') {
      const pin = pinOf.get(second ?? '');
      const level: Level = third === 'z' ? 'z' : third === '1' ? 1 : 0;
      if (pin !== undefined) trace.pins.push({ cycles: Number(first), pin, level });
    }
  }
  return trace;
}
