/** The first evening: from the first start to lamps that glow by themselves. */
import { afterEach, expect, test } from 'vitest';
import { openRig, type Rig } from '../panel/rig.ts';
import { Person } from './person.ts';

/** An emulated board, a browser and a build: on a busy machine that takes its time. */
const LONG = 400_000;

let rig: Rig;
afterEach(() => rig.close());

test(
  'a T-junction of one’s own glows after at most twenty actions, and comes back by itself after a power cut',
  async () => {
    rig = await openRig({ welcomed: false });
    const person = new Person(rig.page);
    await person.clicks('Make a layout of your own');
    await person.clicks('OO, 1:76.2', 'radio');
    await person.clicks('United Kingdom, today', 'radio');
    await person.clicks('Board with an ATmega328P', 'radio');
    await person.clicks('A T-junction', 'radio');
    await person.writes('Name of the layout', 'Chapel Corner');
    await person.seesBoard('runs this layout, kept');
    await person.seesTitle('Chapel Corner');
    await person.seesLampsGlow();
    expect(person.actions).toBeLessThanOrEqual(20);

    await person.presses('.', '.', '.');
    await person.seesLampsChange();
    await person.cutsThePower();
    await person.seesBoard('runs this layout, kept');
    await person.seesLampsGlow();
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);

test(
  'whoever only wants to look has the lamps of Penmarrow after one action',
  async () => {
    rig = await openRig({ welcomed: false });
    const person = new Person(rig.page);
    await person.clicks('Begin with Penmarrow');
    await person.seesLampsGlow();
    await person.seesBoard('runs this layout, kept');
    expect(person.actions).toBe(1);
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
