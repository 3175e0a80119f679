/** A junction from what a person knows, ready to run. */
import { describe, expect, it } from 'vitest';
import type { Lamp } from '../../shared/layout/outputs.ts';
import {
  type JunctionWish,
  junctionHeads,
  makeJunction,
  type NewJunction,
} from '../../shared/layout/templates/junction.ts';
import { PRACTICES } from '../../shared/practice/practices.ts';
import { chainOf } from '../layout/small.ts';
import { compiled, rowsOf } from './junctions.ts';

function layoutFor(wish: JunctionWish & Pick<NewJunction, 'buttons' | 'detectors'>, practice: string) {
  let bit = 0;
  const lamps = junctionHeads(wish).map((head) => head.map((): Lamp => ({ bit: bit++ })));
  const inputs = [...(wish.buttons ?? []), ...(wish.detectors ?? [])];
  return {
    format: 'amberwick-layout',
    version: 1,
    name: 'Penmarrow',
    scale: 'OO',
    practice,
    boards: [{ id: 'town', name: 'Town', chip: 'atmega328p', chain: chainOf(2) }],
    inputs: inputs.map((id, index) => ({ id, name: id, board: 'town', pin: `A${index}` })),
    sites: [makeJunction({ id: 'cross', name: 'Market Cross', board: 'town', ...wish, lamps })],
  };
}

describe('two roads cross, the high street is busier, it is 1965', () => {
  const wish = { arms: [0, 90, 180, 270], roads: ['Fore Street', 'Quay Hill'], busier: 'first' } as const;
  const { board, told } = compiled(layoutFor(wish, 'uk-1965'));

  it('has the six intervals of a junction of its time', () => {
    expect(told).toEqual([]);
    expect(board && rowsOf(board.table)).toEqual([
      '0 after green-1 ..G R..',
      '1 after amber .A. R..',
      '2 after red-with-amber R.. RA.',
      '3 after green-2 R.. ..G',
      '4 after amber R.. .A.',
      '5 after red-with-amber RA. R..',
    ]);
    expect(board?.table.sites[0]?.dials).toEqual([20_000, 12_000, 3000, 2000]);
  });

  it('has a head for each arm, opposite ones on the same outputs', () => {
    const { heads } = makeJunction({ id: 'cross', name: 'Market Cross', board: 'town', ...wish, lamps: [] });
    expect(heads?.map(({ phase, arm }) => `${phase} ${arm}`)).toEqual(['A 0', 'B 90', 'A 180', 'B 270']);
    expect(board?.table.lamps).toHaveLength(6);
  });
});

it('a T-junction knows its through road, wherever the arms lie', () => {
  const { heads } = makeJunction({ id: 't', name: 'T', board: 'town', arms: [30, 118, 300], lamps: [] });
  expect(heads?.map(({ phase, arm }) => `${phase} ${arm}`)).toEqual(['B 30', 'A 118', 'A 300']);
});

it('an early cut-off stops one end of the street, and people cross before the side road goes', () => {
  const wish = { arms: [0, 90, 270], earlyCutOff: true, pedestrians: true, buttons: ['button'] } as const;
  const { board, told } = compiled(layoutFor(wish, 'uk-today'));
  expect(told).toEqual([]);
  expect(board && rowsOf(board.table)).toEqual([
    '0 after green-1 ..G ..G R.. R.',
    '1 after amber ..G .A. R.. R.',
    '2 after green-2 ..G R.. R.. R.',
    '3 after amber .A. R.. R.. R.',
    '4 jump unless 0 to 8',
    '5 clear 0',
    '6 after green-3 R.. R.. R.. .G',
    '7 after clearance R.. R.. R.. ..',
    '8 after red-with-amber R.. R.. RA. R.',
    '9 after green-4 R.. R.. ..G R.',
    '10 after amber R.. R.. .A. R.',
    '11 after red-with-amber RA. RA. R.. R.',
  ]);
});

it('detectors let the high street rest in green until somebody waits', () => {
  const wish = { arms: [0, 90, 180, 270], detectors: ['fore', 'quay'] } as const;
  const { board, told } = compiled(layoutFor(wish, 'uk-today'));
  expect(told).toEqual([]);
  expect(board && rowsOf(board.table).filter((row) => row.includes('extend'))).toEqual([
    '0 extend 0 against 1 ..G R..',
    '3 extend 1 against  R.. ..G',
  ]);
});

describe('every junction that can be wished for', () => {
  const yesOrNo = [false, true];
  const wishes = [
    [90, 270],
    [0, 90, 270],
    [0, 90, 180, 270],
  ].flatMap((arms) =>
    (['first', 'second', 'equal'] as const).flatMap((busier) =>
      yesOrNo.flatMap((pedestrians) =>
        yesOrNo.flatMap((filter) => yesOrNo.map((earlyCutOff) => ({ arms, busier, pedestrians, filter, earlyCutOff }))),
      ),
    ),
  );

  it.each(PRACTICES.map((practice) => practice.id))('runs by the rules of %s without a word of blame', (practice) => {
    for (const wish of wishes) {
      const { board, told } = compiled(layoutFor({ ...wish, buttons: wish.pedestrians ? ['button'] : [] }, practice));
      expect(told, JSON.stringify(wish)).toEqual([]);
      expect(board).not.toBeNull();
    }
  });
});
