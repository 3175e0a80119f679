/** Every way in which a port does not open or leads to no board of ours, produced for real, and the sentences read back. */
import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, chownSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { StreamEnds } from '../../electron/host/stream.ts';
import { openPty } from '../../electron/host/virtual/pty.ts';
import { encodeEvent } from '../../shared/link/line.ts';
import { BAUD } from '../../shared/link/vocabulary.ts';
import { typed } from '../cli/typed.ts';

/** Tests here run side by side, as most of their time is waiting; what they leave goes when all are done. */
const leavings: (() => unknown)[] = [];
afterAll(async () => {
  for (const clear of leavings) await clear();
});

const home = new URL('../../', import.meta.url).pathname;

/** A device of this computer; `answer` is what is behind it. */
async function device(answer: (say: (bytes: Uint8Array) => void) => void = () => {}) {
  const ends = new StreamEnds();
  let isAsked = false;
  const front = await openPty({
    write: () => {
      // Whoever listens has been there since before the first question.
      if (!isAsked) answer((bytes) => ends.data(bytes));
      isAsked = true;
    },
    onData: (listener) => ends.onData(listener),
    onClose: (listener) => ends.onClose(listener),
    close: async () => {},
  });
  if (!front.ok) throw new Error(front.error);
  leavings.push(() => front.pty.close());
  return front.pty;
}

function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-opening-'));
  leavings.push(() => rmSync(folder, { recursive: true }));
  return folder;
}

/** Another program, until the tests are over. */
function program(code: string): ChildProcess {
  const child = spawn(process.execPath, ['--input-type=module', '-e', code], { cwd: home });
  leavings.push(() => child.kill());
  return child;
}

/** What somebody reads who tries to reach a board at this port: the problem without its raw words. */
async function said(port: string): Promise<Record<string, unknown>> {
  const { exit, json } = await typed('identify', '--port', port, '--json');
  expect(exit).toBe(1);
  return spoken(json());
}

function spoken(answer: { problem: Record<string, unknown> }): Record<string, unknown> {
  const { detail: _, ...sentences } = answer.problem;
  return sentences;
}

describe.concurrent('a port that does not open', () => {
  test('held by another program', async () => {
    const { path } = await device();
    const other = program(`
      import { SerialPort } from 'serialport';
      const port = new SerialPort({ path: ${JSON.stringify(path)}, baudRate: 9600 });
      port.on('open', () => console.log('open'));
    `);
    await new Promise((resolve) => other.stdout?.once('data', resolve));
    expect(await said(path)).toEqual({
      code: 'portBusy',
      what: `${path} is in use by another program.`,
      why: 'Only one program at a time can have a port: a serial monitor or a second Amberwick may be open.',
      next: 'Close the other program and connect again.',
    });
  });

  test('that is not there', async () => {
    expect(await said('/dev/amberwick-none')).toEqual({
      code: 'portMissing',
      what: 'There is no board at /dev/amberwick-none.',
      why: 'The cable is out, goes to power only, or the board has come back under another name.',
      next: 'Plug the board in and choose it in the list of ports.',
    });
  });

  test('that was there a moment ago', async () => {
    const { path, close } = await device();
    const link = join(emptyFolder(), 'board');
    symlinkSync(path, link);
    await close();
    expect(await said(path)).toMatchObject({ code: 'portMissing', what: `There is no board at ${path}.` });
    expect(await said(link)).toMatchObject({ code: 'portMissing', what: `There is no board at ${link}.` });
  });

  test('that is a file or a folder', async () => {
    const folder = emptyFolder();
    const file = join(folder, 'ttyUSB0');
    writeFileSync(file, '');
    expect(await said(file)).toEqual({
      code: 'portNotSerial',
      what: `${file} is no serial port.`,
      why: 'There is a file or another kind of device of this name.',
      next: 'Choose one of the ports in the list.',
    });
    expect(await said(folder)).toMatchObject({ code: 'portNotSerial' });
  });
});

/** What a user without rights reads. Only the superuser can try that: the program gives its rights up before it opens. */
async function saidToNobody(port: string): Promise<Record<string, unknown>> {
  const child = program(`
    import { register } from 'tsx/esm/api';
    register();
    const { main } = await import('./scripts/cli/main.ts');
    process.setgroups([]);
    process.setgid(65534);
    process.setuid(65534);
    process.exitCode = await main(['node', 'amberwick', 'identify', '--port', ${JSON.stringify(port)}, '--json']);
  `);
  let out = '';
  child.stdout?.on('data', (text) => {
    out += text;
  });
  const exit = await new Promise((resolve) => child.once('close', resolve));
  expect(exit).toBe(1);
  return spoken(JSON.parse(out));
}

/** A group that this system has for such devices, else any that is not the superuser's. */
function someGroup(): { readonly name: string; readonly gid: number } {
  const groups = readFileSync('/etc/group', 'utf8')
    .split('\n')
    .map((line) => line.split(':'))
    .flatMap(([name = '', , gid]) => (Number(gid) > 0 && Number(gid) !== 65534 ? [{ name, gid: Number(gid) }] : []));
  const found = groups.find(({ name }) => name === 'dialout' || name === 'uucp') ?? groups[0];
  if (!found) throw new Error('this system has no groups');
  return found;
}

describe.runIf(process.getuid?.() === 0)('a port that this user may not open (tried by the superuser only)', () => {
  test('but a group may, by its name on this system', async () => {
    const { name, gid } = someGroup();
    const { path } = await device();
    chownSync(path, 0, gid);
    chmodSync(path, 0o660);
    expect(await saidToNobody(path)).toEqual({
      code: 'portDenied',
      what: `This user may not open ${path}.`,
      why: `The port belongs to the group "${name}", and this user is not in it.`,
      next: `In a terminal: sudo usermod -aG ${name} $USER. Then log out and in again.`,
    });
  });

  test('nor any group', async () => {
    const { path } = await device();
    chownSync(path, 0, 0);
    chmodSync(path, 0o600);
    expect(await saidToNobody(path)).toEqual({
      code: 'portDenied',
      what: `This user may not open ${path}.`,
      why: 'The system gives this port to other users only.',
      next: 'Ask whoever looks after this computer for access to serial ports.',
    });
  });
});

/** Bytes of a small generator: the same noise each time. */
function noise(count: number): Uint8Array {
  let state = 1;
  return Uint8Array.from({ length: count }, () => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return state >>> 24;
  });
}

/** What a receiver at one rate makes of what is sent at another: each byte framed by a start bit and a stop bit. */
function received(text: string, sentAt: number, readAt: number): Uint8Array {
  const line: number[] = [1];
  for (const char of text) {
    line.push(0);
    for (let bit = 0; bit < 8; bit++) line.push((char.charCodeAt(0) >> bit) & 1);
    line.push(1);
  }
  const level = (bits: number): number => line[Math.floor((bits * sentAt) / readAt)] ?? 1;
  const bytes: number[] = [];
  const end = (line.length * readAt) / sentAt;
  for (let at = 0; at < end; ) {
    if (level(at) === 1) {
      at += 0.1;
      continue;
    }
    const bits = [0, 1, 2, 3, 4, 5, 6, 7].map((bit) => level(at + 1.5 + bit) << bit);
    bytes.push(bits.reduce((sum, bit) => sum | bit, 0));
    at += 9.6;
    while (at < end && level(at) === 0) at += 0.1;
  }
  return Uint8Array.from(bytes);
}

test('a receiver at the same rate reads what was sent', () => {
  expect(String.fromCharCode(...received('Hello, Penmarrow\n', 57_600, 57_600))).toBe('Hello, Penmarrow\n');
});

describe.concurrent('a port that leads to no board of ours', () => {
  const foreign = (path: string) => ({
    code: 'foreignFirmware',
    what: `The board at ${path} talks, but not as an Amberwick board does.`,
    why: 'It runs another program.',
    next: `Check that it is the right port; then: amberwick firmware --port ${path} (this replaces the other program).`,
  });

  test('but to noise', async () => {
    const { path } = await device((say) => say(noise(4000)));
    expect(await said(path)).toEqual(foreign(path));
  });

  test('but to a program that prints', async () => {
    const { path } = await device((say) => say(new TextEncoder().encode('Temperature 21.5\r\n')));
    expect(await said(path)).toEqual(foreign(path));
  });

  test('but to one that prints at another rate', async () => {
    const garbled = received('Temperature 21.5\r\nTemperature 21.6\r\n', 9600, BAUD);
    expect(garbled.length).toBeGreaterThan(20);
    const { path } = await device((say) => say(garbled));
    expect(await said(path)).toEqual(foreign(path));
  });

  test('but to silence', async () => {
    const { path } = await device();
    expect(await said(path)).toEqual({
      code: 'noAnswer',
      what: `Nothing answered at ${path}.`,
      why: 'There is no Amberwick firmware on this board yet, or something else is plugged in here.',
      next: `Check that it is the right port; then: amberwick firmware --port ${path}.`,
    });
  });

  test('but to a device that goes away meanwhile', async () => {
    const front = await device((say) => {
      say(new TextEncoder().encode(encodeEvent(0, 'hello', [1, 'power', '00'])));
      void front.close();
    });
    expect(await said(front.path)).toMatchObject({
      code: 'cableOut',
      what: 'The connection to the board broke off.',
      next: 'Plug it in again, here or at another port: it is found by itself.',
    });
  });
});
