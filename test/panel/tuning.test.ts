import { describe, expect, test } from 'vitest';
import { commandById } from '../../renderer/commands/all.ts';
import { pointsOf, timesAt, walkTo, wayTo } from '../../renderer/model/changes.ts';
import { dialTimes, differs, signed, timesOf } from '../../renderer/model/compare.ts';
import { createModel } from '../../renderer/model/model.ts';
import { createPreferences } from '../../renderer/model/preferences.ts';
import type { Surface } from '../../renderer/model/surface.ts';
import { placeOf } from '../../renderer/tuning/limit-bar.tsx';
import { limitLines } from '../../renderer/tuning/limit-words.ts';
import { readLimits, setLimits, takeLimitsBack } from '../../renderer/tuning/limits.ts';
import { greensOf, otherRows } from '../../renderer/tuning/next-green.ts';
import { backToPlan, takeIntoPlan } from '../../renderer/tuning/plan-times.ts';
import { type Bench, memoryStore, openBench, PENMARROW, twoBoards } from './example.ts';

const GREEN = { board: 'town', site: 0, dial: 0 };
const OTHER = { board: 'town', site: 1, dial: 0 };

async function does(bench: Bench, id: string, surface: Partial<Surface> = {}): Promise<void> {
  const command = commandById(id);
  expect(command.when(bench.model), id).toBe(true);
  await command.run(bench.model, surface as Surface);
  await bench.settle();
}

const running = ({ model }: Bench) => model.board('town').state.value.runningDials?.map(([first]) => first);
const kept = ({ model }: Bench) => model.board('town').state.value.keptDials?.map(([first]) => first);
const asked = ({ host }: Bench, name: string) => host.calls.filter((call) => call.name === name);

describe('two sets of times', () => {
  test('A is noted, B is made from it, one key goes to and fro; the dial changes the set that runs', async () => {
    const bench = await openBench();
    const { model } = bench;
    expect(commandById('switch-sets').when(model)).toBe(false);
    await does(bench, 'note-a');
    await does(bench, 'note-b');
    expect(model.sets.on.value).toBe('B');
    await model.nudges.nudge(GREEN, 24_000);
    expect(model.sets.on.value).toBe('B');
    expect(model.sets.apart.map(({ id, a, b }) => [id, a, b])).toEqual([['green-1', 18_000, 24_000]]);
    await does(bench, 'switch-sets');
    expect([model.sets.on.value, running(bench)?.[0]]).toEqual(['A', 18_000]);
    await model.nudges.nudge({ ...GREEN, dial: 1 }, 9_000);
    await does(bench, 'switch-sets');
    expect(model.board('town').state.value.runningDials?.[0]?.slice(0, 2)).toEqual([24_000, 12_000]);
    await does(bench, 'switch-sets');
    expect(model.board('town').state.value.runningDials?.[0]?.slice(0, 2)).toEqual([18_000, 9_000]);
  });

  test('a switch is one call, one line of the log and one step of undo', async () => {
    const bench = await openBench();
    const { model } = bench;
    await does(bench, 'note-a');
    await does(bench, 'note-b');
    await model.nudges.nudge(GREEN, 24_000);
    await model.nudges.nudge({ ...GREEN, dial: 1 }, 14_000);
    const lines = model.log.value.length;
    await does(bench, 'switch-sets');
    expect(asked(bench, 'tune')).toHaveLength(1);
    expect(model.log.value.length).toBe(lines + 1);
    expect(model.log.value.at(-1)?.text).toBe('Switched to A of Market Cross.');
    await does(bench, 'undo');
    expect([running(bench)?.[0], model.sets.on.value]).toEqual([24_000, 'B']);
    await does(bench, 'redo');
    expect([running(bench)?.[0], model.sets.on.value]).toEqual([18_000, 'A']);
  });

  test('of one site or of everything on the board, each with its own sets', async () => {
    const bench = await openBench();
    const { model } = bench;
    await does(bench, 'note-a');
    model.sets.scope.value = 'board';
    expect(model.sets.has('A')).toBe(false);
    await does(bench, 'note-a');
    // Until both are noted a turn changes neither.
    await model.nudges.nudge(OTHER, 31_000);
    expect(model.sets.on.value).toBe(null);
    await does(bench, 'note-b');
    model.choose('harbour-crossing');
    expect(model.sets.on.value).toBe('B');
    await does(bench, 'switch-sets');
    expect(running(bench)).toEqual([18_000, 25_000, 750]);
    model.sets.scope.value = 'site';
    expect(model.sets.has('A')).toBe(false);
  });

  test('what neither set has is neither; a refused turn does not stay in a set', async () => {
    const bench = await openBench();
    const { model, host } = bench;
    await does(bench, 'note-b');
    await does(bench, 'note-a');
    host.refuseNext = { name: 'nudge', code: 'outsideLimits', what: 'outside limits' };
    await model.nudges.nudge(GREEN, 30_000);
    expect(model.sets.on.value).toBe('A');
    model.sets.note('B');
    await model.nudges.nudge(GREEN, 20_000);
    await does(bench, 'put-back');
    expect([running(bench)?.[0], model.sets.on.value]).toEqual([18_000, 'A']);
    host.boards[0]?.power(false);
    expect(model.sets.on.value).toBe(null);
  });

  test('they outlive the window, and a damaged store is no set', async () => {
    const store = memoryStore();
    const bench = await openBench();
    const first = createModel(bench.host, { now: () => 0, preferences: createPreferences(store) });
    await first.refresh();
    first.sets.note('A');
    first.sets.note('B');
    await first.nudges.nudge(GREEN, 22_000);
    const second = createModel(bench.host, { now: () => 0, preferences: createPreferences(store) });
    await second.refresh();
    expect([second.sets.on.value, second.sets.apart.map(({ a, b }) => [a, b])]).toEqual(['B', [[18_000, 22_000]]]);
    for (const damaged of ['{', '[1]', '{"x": 3}', '{"x": {"A": {"y": "z"}}}']) {
      store.setItem('amberwick time-sets', damaged);
      const third = createModel(bench.host, { now: () => 0, preferences: createPreferences(store) });
      await third.refresh();
      expect(third.sets.has('A')).toBe(false);
    }
  });
});

describe('changed times of the session', () => {
  test('are listed with who changed them; quick presses are one', async () => {
    const bench = await openBench();
    const { model } = bench;
    for (const ms of [19_000, 20_000, 21_000]) await model.nudges.nudge(GREEN, ms);
    await does(bench, 'keep');
    await model.nudges.nudge(OTHER, 30_000);
    const points = pointsOf(model.log.value, 'town');
    // The log of this host counts a second for each line.
    expect(points.map(({ who }) => who)).toEqual(['nudge', 'keep', 'nudge']);
    expect(points[0]?.changes).toEqual([{ site: 'market-cross', dial: 'green-1', from: 18_000, to: 21_000 }]);
  });

  test('any moment can be gone to, and on again, in one step each', async () => {
    const bench = await openBench();
    const { model } = bench;
    await model.nudges.nudge(GREEN, 20_000);
    await model.nudges.nudge(OTHER, 30_000);
    await model.nudges.nudge(GREEN, 28_000);
    const points = pointsOf(model.log.value, 'town');
    expect([...timesAt(points, -1).values()]).toEqual([18_000, 25_000]);
    await walkTo(model, 'town', points, 0, '19:00:01');
    expect(running(bench)).toEqual([20_000, 25_000, 750]);
    const after = pointsOf(model.log.value, 'town');
    expect(after.at(-1)).toMatchObject({ who: 'walk', text: 'Went to the times of 19:00:01.' });
    // What came after is still there to go on to.
    await walkTo(model, 'town', after, 2, '19:00:03');
    expect(running(bench)).toEqual([28_000, 30_000, 750]);
    expect(wayTo(model, 'town', pointsOf(model.log.value, 'town'), 2)).toEqual([]);
    await does(bench, 'undo');
    expect(running(bench)).toEqual([20_000, 25_000, 750]);
  });

  test('a walk over random changes comes to exactly the times of each moment', async () => {
    const bench = await openBench();
    const { model } = bench;
    const seen: string[] = [];
    let seed = 7;
    const dice = (sides: number): number => {
      seed = (seed * 16_807) % 2_147_483_647;
      return seed % sides;
    };
    for (let turn = 0; turn < 25; turn++) {
      // Two turns of one dial within a second and a half would be one moment.
      await model.nudges.nudge({ ...GREEN, site: turn % 2 }, 10_000 + 500 * dice(40) + turn);
      seen.push(JSON.stringify(running(bench)));
    }
    const points = pointsOf(model.log.value, 'town');
    expect(points).toHaveLength(25);
    for (let walk = 0; walk < 12; walk++) {
      const at = dice(25);
      await walkTo(model, 'town', points, at, 'then');
      expect(JSON.stringify(running(bench))).toBe(seen[at]);
    }
  });
});

describe('undo of Keep', () => {
  test('the board keeps again what it kept; what runs stays; redo keeps anew', async () => {
    const bench = await openBench();
    const { model } = bench;
    await model.nudges.nudge(GREEN, 21_000);
    await does(bench, 'keep');
    expect(kept(bench)?.[0]).toBe(21_000);
    await does(bench, 'undo');
    expect([running(bench)?.[0], kept(bench)?.[0]]).toEqual([21_000, 18_000]);
    expect(model.board('town').state.value).toMatchObject({ unkept: true, keeps: 3 });
    await does(bench, 'redo');
    expect([running(bench)?.[0], kept(bench)?.[0]]).toEqual([21_000, 21_000]);
    await does(bench, 'undo');
    await does(bench, 'undo');
    expect([running(bench)?.[0], kept(bench)?.[0]]).toEqual([18_000, 18_000]);
  });

  test('where that cannot be, it is said, Kept before is offered, and undo goes on to what was before', async () => {
    const bench = await openBench();
    const { model, host } = bench;
    await model.nudges.nudge(GREEN, 21_000);
    const sheet = { value: null } as unknown as Surface['sheet'];
    const under = { value: null } as unknown as Surface['under'];
    await does(bench, 'keep', { sheet, under });
    host.refuseNext = { name: 'keepEarlier', code: 'keepOther', what: 'another layout' };
    await does(bench, 'undo');
    expect(model.trouble.value?.problem.code).toBe('keepOther');
    expect(sheet.value).toBe('keeps');
    await does(bench, 'undo');
    expect([running(bench)?.[0], kept(bench)?.[0]]).toEqual([18_000, 21_000]);
  });

  test('a board that is away for a moment: the step stays where it is', async () => {
    const bench = await openBench();
    const { model, host } = bench;
    await model.nudges.nudge(GREEN, 21_000);
    await does(bench, 'keep');
    host.refuseNext = { name: 'keepEarlier', code: 'boardBusy', what: 'busy' };
    await does(bench, 'undo');
    expect(kept(bench)?.[0]).toBe(21_000);
    await does(bench, 'undo');
    expect(kept(bench)?.[0]).toBe(18_000);
  });
});

describe('planned, running and kept', () => {
  test('stand apart with what differs', async () => {
    const bench = await openBench();
    const { model } = bench;
    expect(timesOf(model).filter(differs)).toEqual([]);
    await model.nudges.nudge(GREEN, 20_500);
    expect(timesOf(model).filter(differs)).toMatchObject([
      { id: 'green-1', planned: 18_000, running: 20_500, kept: 18_000 },
    ]);
    expect([signed(2_500), signed(-500), signed(50), signed(65_000)]).toEqual([
      '+2.5 s',
      '−0.5 s',
      '+0.05 s',
      '+65.0 s',
    ]);
  });

  test('running times are taken into the plan as one step, and back', async () => {
    const bench = await openBench();
    const { model } = bench;
    await model.nudges.nudge(GREEN, 20_500);
    await model.nudges.nudge(OTHER, 22_000);
    await does(bench, 'take-into-plan');
    const planned = () => model.open.value.sites.map(({ binding }) => binding.dials[0]);
    expect(planned()).toEqual([20_500, 22_000, 750]);
    expect(model.log.value.at(-1)?.text).toBe(
      'Took into the plan: Market Cross green of Fore Street 20.5 s, Chapel Corner green of Fore Street 22.0 s.',
    );
    await does(bench, 'undo');
    expect(planned()).toEqual([18_000, 25_000, 750]);
  });

  test('one time alone goes back to planned, or all of them in one step', async () => {
    const bench = await openBench();
    const { model } = bench;
    await model.nudges.nudge(GREEN, 20_500);
    await model.nudges.nudge(OTHER, 22_000);
    const site = model.open.value.sites[0];
    if (!site) throw new Error('no site');
    await backToPlan(model, [dialTimes(model, site, 0)]);
    expect(running(bench)).toEqual([18_000, 22_000, 750]);
    await does(bench, 'back-to-plan');
    expect(running(bench)).toEqual([18_000, 25_000, 750]);
    await does(bench, 'undo');
    expect(running(bench)).toEqual([18_000, 22_000, 750]);
  });

  test('nothing runs, nothing is taken', async () => {
    const bench = await openBench();
    bench.host.boards[0]?.power(false);
    await takeIntoPlan(bench.model, timesOf(bench.model));
    expect(asked(bench, 'changeText')).toEqual([]);
    expect(commandById('take-into-plan').when(bench.model)).toBe(false);
  });
});

describe('limits', () => {
  const site = ({ model }: Bench) => {
    const found = model.open.value.sites[0];
    if (!found) throw new Error('no site');
    return found;
  };

  test('are told with where they are from', async () => {
    const bench = await openBench();
    expect(limitLines(site(bench), 0)).toEqual([
      { name: 'Least', text: '7.0 s (Fore Street needs its minimum green of 7 s)' },
      {
        name: 'Greatest',
        text: expect.stringMatching(/^4:15 \(UK controller handbook .*maximum green up to 255 s\)$/),
      },
      { name: 'Usual', text: '15.0 s (common practice, no source)' },
    ]);
    // Of the 1960s no ranges are known.
    const today = await openBench(PENMARROW.replace('uk-1965', 'uk-today'));
    const beacons = today.model.open.value.sites[2];
    expect(beacons && limitLines(beacons, 0).map(({ name }) => name)).toEqual([
      'Least',
      'Greatest',
      'Usual',
      'On the street',
    ]);
  });

  test('other ones need a reason, a sense and what the board can hold; what guards greens stays', async () => {
    const bench = await openBench();
    const read = (least: string, greatest: string, reason = 'A long train', dial = 0) => {
      const found = readLimits(site(bench), dial, { least, greatest, reason });
      return 'wrong' in found ? found.wrong : [found.min, found.max];
    };
    expect(read('7', '5:00')).toEqual([7_000, 300_000]);
    expect(read('7 s', '300,5')).toEqual([7_000, 300_500]);
    expect(read('7', '5:00', ' ')).toBe('Write a reason. In five years somebody will ask.');
    expect(read('soon', '5:00')).toMatch(/^Least: This is no time\./);
    expect(read('7', '')).toMatch(/^Greatest: Nothing was written\./);
    expect(read('40', '30')).toBe('The least is longer than the greatest. Exchange the two.');
    expect(read('5', '5:00')).toBe('The least cannot be below 7.0 s. Fore Street needs its minimum green of 7 s.');
    expect(read('1', '20', 'x', 2)).toMatch(/^The least cannot be below 3\.0 s\./);
    expect(read('7', '99999')).toBe('The board times nothing longer than 546:07 here.');
    expect(read('20', '5:00')).toBe('The planned time is 18.0 s; it has to lie between the two.');
  });

  test('are set with their reason in layout and log, shown as the owner’s, and taken back', async () => {
    const bench = await openBench();
    const { model } = bench;
    expect(await setLimits(model, site(bench), 0, { min: 7_000, max: 300_000, reason: 'A long train' })).toBe(true);
    expect(model.log.value.at(-1)).toMatchObject({
      kind: 'limit',
      text: 'Set the limits of Market Cross green of Fore Street to 7.0 s and 5:00: A long train.',
    });
    expect(site(bench).program.dials[0]).toMatchObject({ min: 7_000, max: 300_000 });
    expect(site(bench).names.dials[0]?.owner).toEqual({ min: 7_000, max: 255_000, reason: 'A long train' });
    expect(JSON.parse(model.text.value ?? '').sites[0].limits).toEqual({
      'green-1': { least: 7, greatest: 300, reason: 'A long train' },
    });
    expect(limitLines(site(bench), 0)[1]?.text).toBe('5:00 (set here: A long train)');
    expect(await takeLimitsBack(model, site(bench), 0)).toBe(true);
    expect(site(bench).names.dials[0]?.owner).toBeUndefined();
    expect(JSON.parse(model.text.value ?? '').sites[0]).not.toHaveProperty('limits');
    expect(model.log.value.at(-1)?.kind).toBe('limit');
    await does(bench, 'undo');
    await does(bench, 'undo');
    expect(site(bench).program.dials[0]?.max).toBe(255_000);
    expect(model.log.value.at(-1)).toMatchObject({ kind: 'limit' });
  });

  test('lie on the bar by ratio, within it', () => {
    expect([placeOf(7_000, 7_000, 255_000), placeOf(255_000, 7_000, 255_000)]).toEqual([0, 1]);
    expect(placeOf(100, 10, 1_000)).toBeCloseTo(0.5);
    expect([placeOf(0, 0, 1_000), placeOf(5_000, 10, 1_000), placeOf(5, 5, 5)]).toEqual([0, 1, 0.5]);
  });
});

describe('holding the next green', () => {
  test('greens are found by what is lit; the running one is not waited for', async () => {
    const { model } = await openBench();
    const [cross, , beacons] = model.open.value.sites;
    if (!cross || !beacons) throw new Error('no sites');
    expect(greensOf(cross).map(({ label }) => label)).toEqual(['Fore Street green', 'Quay Hill green']);
    expect(otherRows(cross, 0)).toEqual(greensOf(cross)[1]?.rows);
    expect(greensOf(beacons)).toEqual([]);
  });

  test('is armed and called off by one key', async () => {
    const bench = await openBench();
    const { model } = bench;
    await does(bench, 'hold-next');
    const [, quay] = model.open.value.sites[0] ? greensOf(model.open.value.sites[0]) : [];
    expect(model.board('town').state.value.arms).toEqual([{ site: 0, rows: quay?.rows }]);
    expect(commandById('hold-next').name?.(model)).toBe('Do not hold');
    await does(bench, 'hold-next');
    expect(model.board('town').state.value.arms).toEqual([]);
  });
});

test('all sites of several boards start by one call; one board by its own', async () => {
  const one = await openBench();
  await does(one, 'restart-all');
  expect(asked(one, 'again')).toEqual([{ name: 'again', args: { board: 'town', site: null } }]);
  const two = await openBench(twoBoards());
  two.host.boards[1]?.connect('virtual:harbour');
  two.host.boards[1]?.start();
  await does(two, 'restart-all');
  expect(asked(two, 'startTogether')).toHaveLength(1);
});
