/** What a person may do next, one of everything that the panel offers; each through the same door as its button. */
import { commandById } from '../../../renderer/commands/all.ts';
import { dialTimes } from '../../../renderer/model/compare.ts';
import type { Surface } from '../../../renderer/model/surface.ts';
import { addSite } from '../../../renderer/new-site/add.ts';
import { withScale } from '../../../renderer/scale/convert.ts';
import { setLimits, takeLimitsBack } from '../../../renderer/tuning/limits.ts';
import { backToPlan, takeIntoPlan } from '../../../renderer/tuning/plan-times.ts';
import { withRecord } from '../../../shared/lampcheck/document.ts';
import { copySite } from '../../../shared/layout/copy-site/copy.ts';
import { addMasterSwitch } from '../../../shared/layout/new-site/master-switch.ts';
import { OFFERS } from '../../../shared/layout/new-site/offers.ts';
import type { Layout } from '../../../shared/layout/schema.ts';
import { writeLayout } from '../../../shared/layout/write.ts';
import { SCALES } from '../../../shared/scale/ratios.ts';
import { chance, type Dice, pick } from '../../fixtures/dice.ts';
import { PENMARROW } from '../example.ts';
import type { WalkBench } from './bench.ts';
import { PLAN_MOVES } from './plan-moves.ts';
import { WIRING_MOVES } from './wiring-moves.ts';

/** May find nothing to do, or be refused. */
export type Move = (dice: Dice, bench: WalkBench, layout: Layout) => Promise<unknown>;

const surface = {} as Surface;

async function press(id: string, { model }: WalkBench): Promise<void> {
  const command = commandById(id);
  if (command.when(model)) await command.run(model, surface);
}

/** A dial that a board runs, with a time within its limits. */
function aDial(dice: Dice, { model }: WalkBench) {
  // The scripted board takes no time under a second: beacons are left alone.
  const sites = model.open.value.sites.filter(({ program }) => program.dials.every(({ min }) => min >= 500));
  if (sites.length === 0) return null;
  const site = pick(dice, sites);
  const dial = dice.int(0, site.program.dials.length - 1);
  const limits = site.program.dials[dial];
  if (!limits || limits.max < 1000) return null;
  const ms = 100 * dice.int(Math.max(10, limits.min / 100), Math.min(400, limits.max / 100));
  return { site, dial, ms, place: { board: site.board, site: site.number, dial } };
}

const anySite = (dice: Dice, layout: Layout): string => pick(dice, layout.sites).id;

const TIMES: Readonly<Record<string, Move>> = {
  nudge: async (dice, bench) => {
    const wanted = aDial(dice, bench);
    if (!wanted) return;
    await bench.model.nudges.nudge(wanted.place, wanted.ms);
    // Pressed again at once: the two are one step.
    if (chance(dice, 40)) {
      bench.pass(300);
      await bench.model.nudges.nudge(wanted.place, wanted.ms + 1000);
    }
  },
  keep: (_, bench) => press('keep', bench),
  'put back': (_, bench) => press('put-back', bench),
  'note a set': async (dice, { model }) => model.sets.note(pick(dice, ['A', 'B'])),
  'switch sets': async (dice, bench) => {
    const [site] = bench.model.open.value.sites;
    if (site) bench.model.choose(site.id);
    if (bench.model.sets.has('A') && bench.model.sets.has('B')) await bench.model.sets.switch(pick(dice, ['A', 'B']));
  },
  'take into the plan': (_, { model }) =>
    takeIntoPlan(
      model,
      model.open.value.sites.flatMap((site) => site.names.dials.map((__, dial) => dialTimes(model, site, dial))),
    ),
  'back to the plan': (_, { model }) =>
    backToPlan(
      model,
      model.open.value.sites.flatMap((site) => site.names.dials.map((__, dial) => dialTimes(model, site, dial))),
    ),
  'set limits': async (dice, bench) => {
    const wanted = aDial(dice, bench);
    const planned = wanted?.site.binding.dials[wanted.dial];
    if (!wanted || planned === undefined) return;
    const limits = { min: Math.min(planned, wanted.ms), max: Math.max(planned, wanted.ms), reason: 'A short street.' };
    await setLimits(bench.model, wanted.site, wanted.dial, limits);
  },
  'take limits back': async (_, { model }) => {
    const site = model.open.value.sites.find(({ names }) => names.dials.some(({ owner }) => owner));
    if (site)
      await takeLimitsBack(
        model,
        site,
        site.names.dials.findIndex(({ owner }) => owner),
      );
  },
};

// Not the change to a larger board: it lets go of the board, and times on it come back only when it is connected again.
const DOCUMENT: Readonly<Record<string, Move>> = {
  'new site': (dice, { model }, layout) => {
    const offer = pick(dice, OFFERS);
    return addSite(model, offer, offer.suggestName(layout), pick(dice, layout.boards).id);
  },
  'take away': (dice, bench, layout) => {
    bench.model.choose(anySite(dice, layout));
    return press('take-away', bench);
  },
  'copy a site': async (dice, { model }, layout) => {
    const copied = copySite(layout, anySite(dice, layout));
    if ('layout' in copied) await model.change(writeLayout(copied.layout), 'Copied a site.');
  },
  scale: (dice, { model }, layout) => {
    const { layout: next, said } = withScale(layout, pick(dice, SCALES).id, 50);
    return model.change(writeLayout(next), said);
  },
  switches: async (dice, { model }, layout) => {
    const switched = addMasterSwitch(layout, pick(dice, layout.boards).id);
    if (switched) await model.change(writeLayout(switched), 'Gave the board two switches.');
  },
  'write a check': (dice, { model }, layout) => {
    const at = `2026-01-0${dice.int(1, 9)}T19:00:00+00:00`;
    const record = { board: pick(dice, layout.boards).id, began: at, ended: at, lamps: [] };
    return model.change(writeLayout(withRecord(layout, record)), 'Wrote the lamp check into the layout.');
  },
  notes: (dice, { model }, layout) =>
    model.change(writeLayout({ ...layout, notes: `Evening ${dice.int(1, 99)}.` }), 'Wrote the notes.'),
  'open another': (dice, { model }) => {
    const name = `evening-${dice.int(1, 9)}.json`;
    return model.ask('openText', { name, text: PENMARROW.replace('"name": "Penmarrow"', `"name": "${name}"`) });
  },
};

const EDITS: Readonly<Record<string, Move>> = { ...DOCUMENT, ...WIRING_MOVES, ...PLAN_MOVES };

const AFTER = [
  'nudge',
  'keep',
  'keep',
  'note a set',
  'switch sets',
  'take into the plan',
  'put back',
  'back to the plan',
];

/** Every one by its name. */
export const MOVES: Readonly<Record<string, Move>> = { ...TIMES, ...EDITS };

/** Half of what is done in an evening is about times, and after a change of one comes something about it. */
export function aMove(dice: Dice, last: string | undefined): string {
  if (last !== undefined && last in TIMES && chance(dice, 70)) return pick(dice, AFTER);
  return pick(dice, Object.keys(chance(dice, 50) ? TIMES : EDITS));
}
