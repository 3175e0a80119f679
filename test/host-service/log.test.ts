import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { dataFolder } from '../../electron/host/log/data-folder.ts';
import { SessionLog } from '../../electron/host/log/session-log.ts';
import { FrameRecorder } from '../../electron/host/service/frames.ts';
import { FakeStream } from '../host/fake-stream.ts';

let folder: string;
const noon = (): Date => new Date('1965-06-01T12:00:00.250Z');

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'log-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const lines = (file: string): unknown[] =>
  readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line));

describe('the session log', () => {
  it('has each line on the disk when it is added, numbered from 1 without a gap', () => {
    const log = new SessionLog(join(folder, 'sessions'), noon);
    expect(log.name).toBe('1965-06-01T12-00-00Z.jsonl');
    log.add('start', 'Amberwick started.');
    expect(lines(log.file)).toHaveLength(1);
    log.add('nudge', 'Changed Market Cross green of Fore Street\nfrom 18.0 s to 20.0 s', {
      board: 'town',
      boardMs: 61_250,
      data: { site: 0, dial: 0, from: 18_000, to: 20_000 },
    });
    expect(lines(log.file)).toEqual([
      { number: 1, at: '1965-06-01T12:00:00.250Z', kind: 'start', text: 'Amberwick started.' },
      {
        number: 2,
        at: '1965-06-01T12:00:00.250Z',
        kind: 'nudge',
        board: 'town',
        boardMs: 61_250,
        data: { site: 0, dial: 0, from: 18_000, to: 20_000 },
        text: 'Changed Market Cross green of Fore Street from 18.0 s to 20.0 s',
      },
    ]);
    expect(log.text()).toBe(readFileSync(log.file, 'utf8'));
    log.close();
  });

  it('never writes into the file of another session', () => {
    const logs = [1, 2, 3].map(() => new SessionLog(folder, noon));
    for (const log of logs) log.add('start', 'Amberwick started.');
    expect(readdirSync(folder).sort()).toEqual([
      '1965-06-01T12-00-00Z-2.jsonl',
      '1965-06-01T12-00-00Z-3.jsonl',
      '1965-06-01T12-00-00Z.jsonl',
    ]);
    for (const log of logs) {
      expect(lines(log.file)).toHaveLength(1);
      log.close();
    }
  });

  it('goes on in memory and says why when the disk takes nothing', () => {
    writeFileSync(join(folder, 'sessions'), 'a file where the folder should be');
    const log = new SessionLog(join(folder, 'sessions'), noon);
    log.add('start', 'Amberwick started.');
    expect(log.failure).toMatch(/EEXIST|ENOTDIR/);
    expect(log.entries.map(({ number }) => number)).toEqual([1]);
    expect(log.text()).toContain('Amberwick started.');
  });
});

describe('trouble in the session log', () => {
  const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (char) => char.charCodeAt(0));

  it('has the lines said until then once, in the line of its entry', () => {
    const log = new SessionLog(folder, noon);
    const recorder = new FrameRecorder(noon);
    const stream = new FakeStream();
    recorder.tap(stream).write(bytesOf('?07 dial 2 0 18000 CB73\n'));
    stream.say('\xffnoise\n');
    log.add('problem', 'Town board has fallen silent.', { frames: recorder.news() });
    log.add('problem', 'Town board is still silent.', { frames: recorder.news() });
    stream.unplug();
    log.add('connection', 'The connection to Town board broke off.', { frames: recorder.news() });
    expect(lines(log.file)).toMatchObject([
      {
        number: 1,
        frames: [
          '12:00:00.250 > opened  | The port was opened.',
          '12:00:00.250 > ?07 dial 2 0 18000 CB73  | Set dial 0 of site 2 to 18.0 s.',
          '12:00:00.250 < \\xFFnoise  | Noise: bytes that no line has.',
        ],
      },
      { number: 2, text: 'Town board is still silent.' },
      {
        number: 3,
        frames: ['12:00:00.250 < closed: The cable was pulled.  | The connection ended. The cable was pulled.'],
      },
    ]);
    expect(log.entries[1]).not.toHaveProperty('frames');
    log.close();
  });

  it('stays under 160 kB for the worst that a line can say, and a hundred troubles after it add nothing of it', () => {
    const log = new SessionLog(folder, noon);
    const recorder = new FrameRecorder(noon);
    const stream = new FakeStream();
    recorder.tap(stream);
    stream.say('\x00'.repeat(100_000));
    log.add('problem', 'Town board talks nonsense.', { frames: recorder.news() });
    expect(log.entries[0]?.frames).toHaveLength(200);
    const first = statSync(log.file).size;
    expect(first).toBeGreaterThan(100_000);
    expect(first).toBeLessThan(160_000);
    for (let index = 0; index < 100; index++) {
      log.add('problem', 'Town board talks nonsense.', { frames: recorder.news() });
    }
    // The numbers 2 to 9, then 10 to 99, then 100 and 101: one to three digits.
    const entry = '{"number":,"at":"1965-06-01T12:00:00.250Z","kind":"problem","text":"Town board talks nonsense."}\n';
    expect(statSync(log.file).size - first).toBe(100 * entry.length + 8 + 2 * 90 + 3 * 2);
    log.close();
  });
});

describe('the data folder', () => {
  it.each([
    [{ AMBERWICK_DATA: '/srv/lights', XDG_DATA_HOME: '/x' }, 'linux', '/srv/lights'],
    [{ XDG_DATA_HOME: '/x' }, 'linux', '/x/amberwick'],
    [{ XDG_DATA_HOME: 'relative' }, 'linux', '/home/ann/.local/share/amberwick'],
    [{}, 'linux', '/home/ann/.local/share/amberwick'],
    [{}, 'darwin', '/home/ann/Library/Application Support/Amberwick'],
  ] as const)('%j on %s is %s', (env, platform, folder) => {
    expect(dataFolder({ env, platform, home: '/home/ann' })).toBe(folder);
  });
});
