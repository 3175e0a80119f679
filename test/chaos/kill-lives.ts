/** Starts a host on the same folder again and again and kills it at a moment chosen by dice. */
import { fork } from 'node:child_process';
import { once } from 'node:events';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { chance, seededDice } from '../fixtures/dice.ts';
import type { FromHost } from './kill-messages.ts';
import { Promises } from './kill-promises.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** A host that has not begun by then never will, ms. */
const PATIENCE_MS = 180_000;
/** Longest life after everything has been read, ms. */
const LONGEST_MS = 1500;
/** Half of the hosts die just after one of their first words about what they do: so many, and so soon after it, ms. */
const WORDS = 8;
const SOON_MS = 60;
/** A start takes about this long, ms; some hosts do not get through it. */
const START_MS = 2500;

const PROMISES: ReadonlySet<FromHost['type']> = new Set(['wanted', 'done']);

export interface Deaths {
  /** Before everything had been read. */
  early: number;
  working: number;
  /** Said to be done by hosts that were killed later. */
  promises: number;
  logLines: number;
  tornLines: number;
}

export interface KillOptions {
  readonly folder: string;
  readonly seed: number;
  readonly kills: number;
  readonly progress?: (done: number, deaths: Deaths) => void;
}

/** Throws when anything that a host has said was done is not there, or is there by half. */
export async function killHosts({ folder, seed, kills, progress }: KillOptions): Promise<Deaths> {
  const program = await bundle();
  const dice = seededDice(seed);
  const promises = new Promises(folder);
  const deaths: Deaths = { early: 0, working: 0, promises: 0, logLines: 0, tornLines: 0 };
  for (let life = 1; life <= kills + 1; life++) {
    const isLast = life > kills;
    const early = !isLast && chance(dice, 20) ? dice.int(0, START_MS) : null;
    const child = fork(program, [folder, String(seed * 10_000 + life)], { execArgv: [] });
    const gone = Promise.all([once(child, 'exit'), once(child, 'disconnect')]);
    const heard: FromHost[] = [];
    const begun = new Promise<void>((resolve, reject) => {
      child.on('message', (message: FromHost) => {
        heard.push(message);
        if (message.type === 'began' || message.type === 'broken') resolve();
      });
      child.on('exit', (code) => code !== null && reject(new Error(`life ${life} ended by itself: ${code}`)));
    });
    const words = dice.int(1, WORDS);
    const spoken = new Promise<void>((resolve) => {
      child.on('message', () => heard.filter(({ type }) => PROMISES.has(type)).length >= words && resolve());
      child.on('exit', () => resolve());
    });
    try {
      await (early === null ? withPatience(begun, life) : Promise.race([begun, pause(early)]));
      if (early === null && chance(dice, 50)) await pause(dice.int(0, LONGEST_MS));
      else if (early === null) {
        await Promise.race([spoken, pause(4 * LONGEST_MS)]);
        await pause(dice.int(0, SOON_MS));
      }
    } finally {
      begun.catch(() => {});
      child.kill('SIGKILL');
      // What it has sent before is read to the end.
      await gone;
    }
    const began = heard.some(({ type }) => type === 'began');
    if (!isLast) deaths[began ? 'working' : 'early'] += 1;
    deaths.promises += heard.filter(({ type }) => type === 'done').length;
    deaths.logLines += heard.filter(({ type }) => type === 'logged').length;
    try {
      for (const message of heard) promises.hear(message);
      promises.checkDisk();
      if (began) promises.checkOldLogs();
    } catch (error) {
      throw new Error(`life ${life} of seed ${seed}: ${(error as Error).message}`);
    }
    deaths.tornLines = promises.tornLines;
    if (!isLast) progress?.(life, deaths);
  }
  return deaths;
}

/** The host as one program, as the app has it: three levels below the root, where the firmware images are found from. */
async function bundle(): Promise<string> {
  const outDir = join(ROOT, 'build', 'chaos', 'kill');
  for (const entry of ['test/chaos/kill-host.ts', 'electron/host/virtual/worker.ts']) {
    await build({
      configFile: false,
      logLevel: 'error',
      ssr: { noExternal: true },
      build: {
        outDir,
        emptyOutDir: false,
        minify: false,
        target: 'es2023',
        ssr: true,
        lib: { entry: join(ROOT, entry), formats: ['es'] },
        rolldownOptions: {
          external: ['serialport', /^@serialport\//, 'bufferutil', 'utf-8-validate', ...builtinModules, /^node:/],
        },
      },
    });
  }
  return join(outDir, 'kill-host.js');
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

async function withPatience(begun: Promise<void>, life: number): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`life ${life} does not begin`)), PATIENCE_MS);
  });
  try {
    await Promise.race([begun, late]);
  } finally {
    clearTimeout(timer);
  }
}
