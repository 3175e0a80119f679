/**
 * Uploads over a line with faults, one after the other on one board. Each must end in success with the very bytes, or in
 * a failure that is named; the board may run nothing but what it kept, what it ran, or what is being sent.
 */
import { readBack } from '../../electron/host/readback.ts';
import type { HostError } from '../../electron/host/result.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { type UploadError, upload } from '../../electron/host/upload.ts';
import { ask } from '../../shared/link/requests.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import { imageShape } from '../../shared/table/shape.ts';
import { buildStore } from '../../shared/table/store.ts';
import { seededDice } from '../fixtures/dice.ts';
import { randomTable } from '../fixtures/random-table.ts';
import { CoreLine } from './core-line.ts';
import { type FaultPlan, faultText, random } from './faults.ts';
import { FaultyLine } from './faulty-line.ts';

/** Different tables that are sent in turn. */
const IMAGES = 60;
/** No work of an upload takes a board longer, ms. */
const SETTLED_MS = 1500;

export interface UploadTally {
  uploads: number;
  /** Sent, started, read back over the same line and the same. */
  whole: number;
  /** Failures by what was told. */
  readonly failures: Record<string, number>;
  faults: number;
  bytes: number;
  /** Board time of each whole upload, ms. */
  readonly times: number[];
}

export interface UploadOptions {
  readonly chip: Chip;
  readonly count: number;
  readonly seed: number;
  /** Chance of a fault for each byte, 0 to 1. */
  readonly rate: number;
  /** Instead of the random plan. */
  readonly plan?: FaultPlan;
  readonly progress?: (tally: UploadTally) => void;
}

/** Throws at the first upload that breaks a promise, with what repeats it. */
export async function uploads(options: UploadOptions): Promise<UploadTally> {
  const { chip, count, seed, rate } = options;
  const images = someImages(chip, seed);
  const [kept] = images;
  const tally: UploadTally = { uploads: 0, whole: 0, failures: {}, faults: 0, bytes: 0, times: [] };
  const core = new CoreLine(chip);
  try {
    core.powerOn(buildStore(chip, { slots: [{ sequence: 1, image: kept }, null] }));
    for (let number = 0; number < count; number++) {
      const image = images[1 + (number % (IMAGES - 1))] ?? kept;
      const plan = options.plan ?? random(seededDice(seed + number), rate);
      const wrong = await one({ core, kept, image, plan, isFed: number % 2 === 0, tally });
      if (wrong) throw new Error(`upload ${number}, seed ${seed}: ${wrong}`);
      options.progress?.(tally);
    }
  } finally {
    core.close();
  }
  return tally;
}

interface Round {
  readonly core: CoreLine;
  readonly kept: Uint8Array;
  readonly image: Uint8Array;
  readonly plan: FaultPlan;
  /** The board lives by the cable, and starts anew where that is pulled. */
  readonly isFed: boolean;
  readonly tally: UploadTally;
}

/** Says which promise was broken, and by which faults; null when none was. */
async function one({ core, kept, image, plan, isFed, tally }: Round): Promise<string | null> {
  const before = await core.running();
  const strange: string[] = [];
  let isRestarted = false;
  const restart = (cause: 'power' | 'reset') => {
    isRestarted = true;
    core.restart(cause);
  };
  core.onLoaded = (loaded) => {
    if (!same(loaded.image, image) && !(isRestarted && same(loaded.image, kept))) {
      const name = same(loaded.image, before) ? 'the one before' : `${loaded.image.length} bytes`;
      strange.push(`a table that was not sent started at ${loaded.at} ms: ${name}`);
    }
  };
  const line = new FaultyLine({
    board: core.plug(),
    clock: core,
    plan,
    reset: () => restart('reset'),
    unplugged: () => isFed && restart('power'),
  });
  const session = new BoardSession(line, { clock: core });
  const begun = core.now();
  const told = await core.until(send(session, image, isFed));
  const took = core.now() - begun;
  await session.close();
  // What the board has begun it may bring to its end, cable or not: the start of this table, for one.
  if (told !== 'whole') await core.pass(SETTLED_MS);
  const after = await core.running();

  tally.uploads += 1;
  tally.faults += line.done.length;
  tally.bytes += line.carried('board') + line.carried('host');
  if (told === 'whole') {
    tally.whole += 1;
    tally.times.push(took);
  } else tally.failures[told] = (tally.failures[told] ?? 0) + 1;

  const isNew = same(after, image);
  // Where it is reset once more by the last byte of all, it has what it keeps: that is what `keep` is for.
  if (told === 'whole' && !isNew && !isRestarted) strange.push('told as sent, but it runs another table');
  if (!isNew && !same(after, isRestarted ? kept : before)) strange.push('it runs neither the old table nor the new');
  if (told.startsWith('wrong') || (told === ANOTHER && !isRestarted)) strange.push(told);
  return strange.length > 0 ? `${strange.join('; ')}; ${line.done.map(faultText).join('; ')}` : null;
}

/** The board was started anew after the upload, and has what it keeps; its greeting may have been lost. */
const ANOTHER = 'read back: another table';

/** `whole`, or the failure as a few words. */
async function send(session: BoardSession, image: Uint8Array, withEvents: boolean): Promise<string> {
  const met = await session.greet();
  if (!met.ok) return `greeting: ${named(met.error)}`;
  // Lamps and intervals are told between the answers, as when a panel looks on.
  if (withEvents) void session.request(ask.tell(true));
  const sent = await upload(session, image);
  if (!sent.ok) return `upload: ${named(sent.error)}`;
  if (sent.value !== imageShape(image)) return `wrong hash ${sent.value}`;
  const read = await readBack(session, 'run');
  if (!read.ok) return `read back: ${named(read.error)}`;
  return read.value && same(read.value.bytes, image) ? 'whole' : ANOTHER;
}

function named(error: HostError | UploadError): string {
  if (error.kind === 'refused') return `refused, ${error.key}`;
  if (error.kind === 'misunderstood') return `misunderstood, ${error.what}`;
  return error.kind === 'ended' ? `ended, ${error.cause}` : error.kind;
}

function same(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, at) => byte === other[at]);
}

/** Random tables that the chip takes, all different. */
function someImages(chip: Chip, seed: number): [Uint8Array, ...Uint8Array[]] {
  const dice = seededDice(seed);
  const make = (): Uint8Array => encodeTable(randomTable(dice, chip)).bytes ?? make();
  const found: [Uint8Array, ...Uint8Array[]] = [make()];
  while (found.length < IMAGES) {
    const image = make();
    if (!found.some((one) => same(one, image))) found.push(image);
  }
  return found;
}
