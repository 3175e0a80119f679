/** The stories that both emulators play. */
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { buildStore } from '../../shared/table/store.ts';
import { seededDice } from '../fixtures/dice.ts';
import { randomScript, type ScriptAct } from '../fixtures/random-script.ts';
import { randomTable } from '../fixtures/random-table.ts';
import { penmarrowBoard } from '../timing/example.ts';
import { Story } from './story.ts';

export interface Told {
  readonly table: BoardTable;
  readonly story: Story;
}

function imageOf(table: BoardTable): Uint8Array {
  const { bytes } = encodeTable(table);
  if (!bytes) throw new Error('the table does not encode');
  return bytes;
}

const keptIn = (table: BoardTable) => buildStore(table.chip, { slots: [{ sequence: 1, image: imageOf(table) }, null] });

/** A start waits for a tick and may just miss one in one emulator only: from here on both go from the same tick. */
function sameTick(story: Story): void {
  story.ask('again').starts.push(story.now);
}

/** Penmarrow kept, its sweep and some minutes, with a question now and then. */
export function example(chip: Chip, minutes: number): Told {
  const table = { ...penmarrowBoard().table, chip };
  const story = new Story(chip, keptIn(table)).power(true);
  for (let quarter = 0; quarter < 4 * minutes; quarter++) story.wait(14_000).ask('snap').wait(900).ask('beat').wait(98);
  return { table, story };
}

/** A new board: a table comes over the line, is nudged and kept; the power fails, the board is reset. */
export function life(chip: Chip): Told {
  const table = { ...penmarrowBoard().table, chip };
  const story = new Story(chip).power(true).wait(100).ask('who').wait(20).upload(imageOf(table));
  sameTick(story);
  story.ask('tell', 1).wait(2000).ask('dial', 0, 0, 9000).wait(3000).ask('beat').wait(2000).ask('keep').wait(3000);
  story.ask('sum', 'kept').wait(300).ask('label', '4A3B2C1D', Buffer.from('Pier').toString('hex')).wait(300);
  story.power(false).wait(100).power(true).wait(12_000).ask('dial', 0, 0).wait(50).ask('supply').wait(50);
  return { table, story: story.reset().wait(6000).ask('who').wait(100) };
}

/** A random table kept, and what a host and the world do to it. */
export function atRandom(chip: Chip, seed: number): Told {
  const dice = seededDice(seed);
  const table = randomTable(dice, chip);
  const story = new Story(chip, keptIn(table));
  for (const { pin, activeLow } of table.inputs) story.pin(pin, activeLow ? 1 : 0);
  sameTick(story.power(true).wait(20));
  story.wait(200);
  for (const { wait, acts } of randomScript(dice, table)) {
    story.wait(wait);
    for (const act of acts) perform(story, table, act);
  }
  story.wait(500);
  for (const site of table.sites.keys()) story.ask('site', site).wait(10);
  return { table, story: story.ask('snap').wait(100) };
}

function perform(story: Story, table: BoardTable, act: ScriptAct): void {
  switch (act.act) {
    case 'raw': {
      const input = table.inputs[act.input];
      if (input) story.pin(input.pin, act.active !== input.activeLow ? 1 : 0).wait(1);
      return;
    }
    case 'press':
      story.ask('press', act.input, act.to);
      break;
    case 'dial':
      story.ask('dial', act.site, act.dial, act.ms);
      break;
    case 'cycle':
      story.ask('dial', 128 + act.group, 0, act.ms);
      break;
    case 'hold':
      story.ask('hold', act.site, Number(act.held));
      break;
    case 'step':
      story.ask('step', act.site);
      break;
    case 'again':
      story.ask('again', ...(act.site === null ? [] : [act.site])).starts.push(story.now);
      break;
    case 'lamp':
      story.ask('lamp', act.lamp, act.to);
      break;
    case 'master':
      story.ask('master', act.to);
      break;
    default:
      story.ask(act.act);
  }
  story.wait(15);
}
