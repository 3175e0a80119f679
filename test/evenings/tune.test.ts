/** An evening of looking at the lamps: times typed and turned, two sets compared, walked back, kept. */
import { afterEach, expect, test } from 'vitest';
import { openRig, type Rig } from '../panel/rig.ts';
import { Person } from './person.ts';

const LONG = 400_000;

let rig: Rig;
afterEach(() => rig.close());

test(
  'tune and keep: what looked right is what the board starts with',
  async () => {
    rig = await openRig();
    const { page } = rig;
    const person = new Person(page);
    await person.seesBoard('runs this layout, kept');

    // Typed as it comes, then by the wheel, with the pointer resting on the dial.
    await person.setsTime('green-1', '21,5');
    await person.reads(/Fore Street from 18\.0 s to 21\.5 s/);
    await person.dial('green-2').hover();
    await page.locator('#dial-green-2[data-wheel="true"]').waitFor();
    await page.mouse.wheel(0, -100);
    await person.seesTime('green-2', '13.0 s');

    // Two sets: what runs now, and a longer green; one key goes between them.
    await person.letsGo();
    await person.presses('Shift+E');
    await person.clicks('Note as A');
    await person.presses('Escape');
    await person.setsTime('green-1', '26');
    await person.seesTime('green-1', '26.0 s');
    await person.letsGo();
    await person.presses('Shift+E');
    await person.clicks('Note as B');
    await person.presses('Escape', 'x');
    await person.seesTime('green-1', '21.5 s');
    await person.presses('x');
    await person.seesTime('green-1', '26.0 s');
    await person.reads(/^Switched to B/);

    // Back to how the evening began, and on again by undo.
    await person.presses('j');
    await person.clicks('Go there: the times of the beginning');
    await person.reads(/^Went to the times of the beginning/);
    await person.presses('Escape');
    await person.seesTime('green-1', '18.0 s');
    await person.seesTime('green-2', '12.0 s');
    await person.presses('Control+z');
    await person.seesTime('green-1', '26.0 s');
    await person.reads(/^Undid: /);

    await person.presses('k');
    await person.reads(/^Kept on Town board/);
    // Turned once more, and not kept: that is what a power cut takes.
    await person.setsTime('green-1', '30');
    await person.seesTime('green-1', '30.0 s');
    await person.cutsThePower();
    await person.seesBoard('runs this layout, other times, kept');
    await person.seesTime('green-1', '26.0 s');
    await person.seesTime('green-2', '13.0 s');
    await person.seesLampsGlow();
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
