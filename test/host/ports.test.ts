import { execFileSync } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { type Account, explainOpening, openErrorKind, openPort, orderPorts } from '../../electron/host/ports.ts';
import { presentPorts } from '../../electron/host/serial/present.ts';
import { openingProblem } from '../../electron/host/service/failures.ts';
import { StreamEnds } from '../../electron/host/stream.ts';
import { openPty } from '../../electron/host/virtual/pty.ts';

function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-ports-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  return folder;
}

/** A pseudo-terminal with nobody behind it. */
async function mutePty() {
  const ends = new StreamEnds();
  const front = await openPty({
    write: () => {},
    onData: (listener) => ends.onData(listener),
    onClose: (listener) => ends.onClose(listener),
    close: async () => {},
  });
  if (!front.ok) throw new Error(front.error);
  onTestFinished(() => front.pty.close());
  return front.pty;
}

describe('the list of ports', () => {
  test('has boards before other ports, by name, and always the virtual board', () => {
    const ports = orderPorts([
      { path: '/dev/ttyS0' },
      { path: '/dev/ttyUSB10', vendorId: '1A86', productId: '7523', manufacturer: 'Chip Makers' },
      { path: '/dev/ttyUSB2', vendorId: '0403', productId: '6001' },
      { path: '/dev/ttyACM0', vendorId: '2341', productId: '0043', manufacturer: 'A Brand' },
      { path: '/dev/ttyACM1', vendorId: '1d6b', productId: '0002', manufacturer: 'Modem Makers' },
    ]);
    expect(ports.map(({ path, label, likely }) => [path, label, likely])).toEqual([
      ['/dev/ttyACM0', 'board with its own USB', true],
      ['/dev/ttyUSB2', 'USB serial (FT232R)', true],
      ['/dev/ttyUSB10', 'USB serial (CH340)', true],
      ['/dev/ttyACM1', 'other device (Modem Makers, 1d6b:0002)', false],
      ['/dev/ttyS0', 'serial port', false],
      ['virtual', 'virtual board', false],
    ]);
    expect(ports.filter(({ virtual }) => virtual).length).toBe(1);
  });

  test.each([
    '1A86:7523',
    '1A86:55D4',
    '10C4:EA60',
    '0403:6001',
    '0403:6010',
    '0403:6014',
    '0403:6015',
    '067B:2303',
    '2341:0001',
    '2A03:0001',
  ])('knows the common bridge %s', (id) => {
    const [vendorId, productId] = id.split(':');
    expect(orderPorts([{ path: 'COM3', vendorId, productId }])[0]).toMatchObject({ likely: true });
  });
});

describe('why a port does not open', () => {
  test.each([
    ['Error: Error Resource temporarily unavailable Cannot lock port', 'busy'],
    ['Error: Device or resource busy, cannot open /dev/ttyUSB0', 'busy'],
    ['Opening COM3: Access denied', 'busy'],
    ['Error: Permission denied, cannot open /dev/ttyUSB0', 'denied'],
    ['Error: Operation not permitted, cannot open /dev/ttyUSB0', 'denied'],
    ['Error: No such file or directory, cannot open /dev/ttyUSB0', 'missing'],
    ['Error: No such device or address, cannot open /dev/ttyUSB0', 'missing'],
    ['Error: No such device, cannot open /dev/ttyUSB0', 'missing'],
    ['Error: Device not configured, cannot open /dev/tty.usbserial-1', 'missing'],
    ['Opening COM9: File not found', 'missing'],
    ['Error: Inappropriate ioctl for device setting custom baud rate of 57600', 'notSerial'],
    ['Error: Is a directory, cannot open /dev', 'notSerial'],
    ['Error: Input/output error, cannot open /dev/ttyUSB0', 'failed'],
  ] as const)('%s means %s', (message, kind) => {
    expect(openErrorKind(message)).toBe(kind);
  });

  const denied = 'Error: Permission denied, cannot open it';
  const groupFile = 'root:x:0:\nwheel:x:10:penny\nuucp:x:14:penny,rowan\n';
  /** What is said of a device node of a group with these permissions. */
  async function said(mode: number, gid: number, account: Partial<Account> = {}) {
    const path = join(emptyFolder(), 'ttyUSB0');
    writeFileSync(path, '');
    execFileSync('chgrp', [String(gid), path]);
    chmodSync(path, mode);
    return explainOpening(path, denied, { name: 'robin', groups: [100], groupFile, ...account });
  }

  // Giving a file to a group that one is not in takes the superuser.
  const isRoot = process.getuid?.() === 0;

  test.runIf(isRoot)('the group that may is named as this system names it', async () => {
    expect(await said(0o660, 14)).toEqual({ kind: 'denied', group: 'uucp', detail: denied });
    expect(await said(0o660, 4321)).toEqual({ kind: 'denied', group: '4321', detail: denied });
  });

  test.runIf(isRoot)('one who has joined it since logging in is told so', async () => {
    expect(await said(0o660, 14, { name: 'rowan' })).toEqual({
      kind: 'denied',
      group: 'uucp',
      joined: true,
      detail: denied,
    });
  });

  test('and reads that logging in anew is all that is missing', () => {
    const error = { kind: 'denied', group: 'uucp', joined: true, detail: denied } as const;
    expect(openingProblem(error, { port: '/dev/ttyUSB0' })).toEqual({
      code: 'portDeniedYet',
      what: 'This user may open /dev/ttyUSB0 only after logging in anew.',
      why: 'It belongs to the group "uucp", which this user has joined since logging in.',
      next: 'Log out and in again, or start the computer anew; then connect.',
      detail: denied,
    });
  });

  test.runIf(isRoot)('no group is named where being in it would not help', async () => {
    const plain = { kind: 'denied', detail: denied };
    expect(await said(0o600, 14)).toEqual(plain);
    expect(await said(0o660, 0)).toEqual(plain);
    expect(await said(0o660, 14, { groups: [14, 100] })).toEqual(plain);
  });

  test('a port that is not there is told, not thrown', async () => {
    const result = await openPort('/dev/amberwick-no-such-port');
    expect(!result.ok && result.error.kind).toBe('missing');
  });
});

describe('opening gently', () => {
  const settings = (path: string): string => execFileSync('stty', ['-F', path, '-a']).toString();

  test.runIf(process.platform === 'linux')(
    'leaves DTR up after closing, so that the next opening resets nothing',
    async () => {
      const { path } = await mutePty();
      execFileSync('stty', ['-F', path, 'hupcl']);
      expect(settings(path)).toMatch(/ hupcl/);
      const opened = await openPort(path);
      if (!opened.ok) throw new Error(opened.error.detail);
      expect(settings(path)).toMatch(/ -hupcl/);
      await opened.stream.close();
      expect(settings(path)).toMatch(/ -hupcl/);
    },
  );

  test('still opens where the flag cannot be set', async () => {
    const { path } = await mutePty();
    const before = process.env.PATH;
    process.env.PATH = emptyFolder();
    onTestFinished(() => {
      process.env.PATH = before;
    });
    const opened = await openPort(path);
    expect(opened.ok).toBe(true);
    if (opened.ok) await opened.stream.close();
  });
});

describe('which devices are there', () => {
  test('a watched one is, wherever it lies, until it goes', async () => {
    const { path, close } = await mutePty();
    const link = join(emptyFolder(), 'board');
    symlinkSync(path, link);
    expect(await presentPorts([path, link])).toEqual(expect.arrayContaining([path, link]));
    await close();
    const after = await presentPorts([path, link]);
    expect(after).not.toContain(path);
    expect(after).not.toContain(link);
  });

  test('a file is no device', async () => {
    const file = join(emptyFolder(), 'ttyUSB0');
    writeFileSync(file, '');
    expect(await presentPorts([file])).not.toContain(file);
  });
});
