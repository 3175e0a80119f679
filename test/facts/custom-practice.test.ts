/** Rules of the owner's own: one of our practices with some values changed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLayout } from '../../shared/layout/parse.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { practiceOf } from '../../shared/practice/custom/custom.ts';
import { CHANGE_KEYS } from '../../shared/practice/custom/keys.ts';
import { PRACTICES } from '../../shared/practice/practices.ts';
import { UK_1965, UK_TODAY } from '../../shared/practice/uk.ts';
import { USA_TODAY } from '../../shared/practice/usa.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { smallLayout } from '../layout/small.ts';

type Changes = Record<string, number | boolean | string | null>;

function own(changes: Changes, from = 'uk-1965') {
  return practiceOf({ practice: 'custom', custom: { from, name: 'Penmarrow rules', changes } });
}

function ownPractice(changes: Changes, from = 'uk-1965') {
  const { practice, findings } = own(changes, from);
  expect(findings).toEqual([]);
  if (practice === null) return expect.fail('no practice');
  return practice;
}

const CHOSEN = { source: 'chosen by the owner', confidence: 'owner' };

describe('a practice of the owner', () => {
  it('is the one that it comes from under another name when nothing is changed', () => {
    expect(ownPractice({})).toEqual({ ...UK_1965, id: 'custom', name: 'Penmarrow rules' });
  });

  it('has an amber of 2.5 s, says whose choice that is, and keeps the limits of the dial', () => {
    const { junction } = ownPractice({ 'junction.amber': 2.5 });
    expect(junction.amber.usual).toEqual({ value: 2500, ...CHOSEN });
    expect(junction.amber.dial).toEqual(UK_1965.junction.amber.dial);
    expect(junction.redWithAmber).toEqual(UK_1965.junction.redWithAmber);
  });

  it('is not warned about a time that its owner chose outside the published range, nor stopped by the dial', () => {
    const { amber } = ownPractice({ 'junction.amber': 12 }, 'uk-today').junction;
    expect(amber.range).toBeNull();
    expect(amber.dial).toEqual({ value: [1000, 12000], ...CHOSEN });
  });

  it('keeps a published range that the new time lies in', () => {
    expect(ownPractice({ 'junction.amber': 4 }, 'usa-today').junction.amber.range).toBe(USA_TODAY.junction.amber.range);
  });

  it('has pelicans in 1965 when the owner says so', () => {
    expect(ownPractice({ 'pelican.exists': true }).pelican.exists).toEqual({ value: true, ...CHOSEN });
  });

  it('goes from red to green at once when red with amber is taken away, and not when it is given', () => {
    const without = ownPractice({ 'junction.redWithAmber': null }, 'uk-today').junction;
    expect(without.redWithAmber).toBeNull();
    expect(without.order).toEqual({ value: ['red', 'green', 'amber'], ...CHOSEN });
    const given = ownPractice({ 'junction.redWithAmber': 1.5 }, 'usa-today').junction;
    expect(given.redWithAmber?.usual).toEqual({ value: 1500, ...CHOSEN });
    expect(given.order).toEqual({ value: ['red', 'red-with-amber', 'green', 'amber'], ...CHOSEN });
  });

  it('gives the level crossing of 1965 an amber, with the names and limits of a practice that has one', () => {
    const { amber } = ownPractice({ 'levelCrossing.amber': 4 }).levelCrossing;
    expect(amber).toEqual({
      name: 'Amber',
      usual: { value: 4000, ...CHOSEN },
      range: null,
      dial: UK_TODAY.levelCrossing.amber?.dial,
    });
  });

  it('takes words, lengths and speeds too, each in its unit', () => {
    const practice = ownPractice(
      { drives: 'right', 'pedestrian.shows': 'flashing-green', 'shuttle.longest': 120, 'pedestrian.walkingSpeed': 1.1 },
      'uk-today',
    );
    expect(practice.drives).toEqual({ value: 'right', ...CHOSEN });
    expect(practice.pedestrian.shows).toEqual({ value: 'flashing-green', ...CHOSEN });
    expect(practice.shuttle.longest).toEqual({ value: 120, ...CHOSEN });
    expect(practice.pedestrian.walkingSpeed).toEqual({ value: 1.1, ...CHOSEN });
    expect(ownPractice({ 'junction.minGreen': 5 }).junction.minGreen).toEqual({ value: 5000, ...CHOSEN });
  });

  it('widens the rule of a flash that its owner chose, and leaves it where the flash stays inside', () => {
    const slow = ownPractice({ 'lamps.indicatorOn': 1, 'lamps.indicatorOff': 1 }, 'uk-today').lamps;
    expect(slow.indicatorRate.perMinute).toEqual({ value: [30, 120], ...CHOSEN });
    const usual = ownPractice({ 'lamps.indicatorOn': 0.4, 'lamps.indicatorOff': 0.4 }, 'uk-today').lamps;
    expect(usual.indicatorRate).toEqual(UK_TODAY.lamps.indicatorRate);
  });

  it('never changes the practice that it comes from', () => {
    const before = JSON.stringify(PRACTICES);
    for (const { id } of PRACTICES)
      ownPractice({ 'junction.amber': 9, drives: 'right', 'crossing.redWithAmber': null }, id);
    expect(JSON.stringify(PRACTICES)).toBe(before);
  });
});

describe('what is wrong with a practice of the owner', () => {
  const told = (changes: Changes) => own(changes).findings.map(({ severity, code, path }) => [severity, code, path]);

  it('a name that nothing has is left out, and the nearest one offered', () => {
    const { practice, findings } = own({ 'junction.ambar': 2 });
    expect(practice?.junction.amber).toEqual(UK_1965.junction.amber);
    expect(findings).toEqual([
      {
        severity: 'warning',
        code: 'unknown-key',
        path: 'custom.changes.junction.ambar',
        what: 'No value of a practice is called "junction.ambar".',
        why: 'The change is not used.',
        cure: 'Write "junction.amber" if you meant that, or take it out.',
      },
    ]);
  });

  it('a kind that nothing has is looked for among all names', () => {
    expect(own({ 'junctoin.amber': 2 }).findings[0]?.cure).toBe(
      'Write "junction.amber" if you meant that, or take it out.',
    );
    expect(own({ lorry: 2 }).findings[0]?.cure).toBe('Check the spelling.');
  });

  it('a name far from any lists what there is beside it', () => {
    expect(own({ 'shuttle.whistle': 2 }).findings[0]?.cure).toBe(
      'Under "shuttle" there are: shuttle.exists, shuttle.amber, shuttle.allRed, shuttle.redWithAmber, shuttle.green, shuttle.minGreen, shuttle.gap, shuttle.longest, shuttle.idle.',
    );
  });

  it('lists, pairs and fields of facts cannot be changed', () => {
    const keys = ['junction.order', 'viewing', 'railway.aspects', 'pelican.flashRate', 'junction.amber.usual', 'name'];
    expect(told(Object.fromEntries(keys.map((key) => [key, 1])))).toEqual(
      keys.map((key) => ['warning', 'unknown-key', `custom.changes.${key}`]),
    );
  });

  it('a value of another kind', () => {
    expect(told({ 'junction.amber': true, 'pelican.exists': 1, drives: 'up', 'junction.green': null })).toEqual([
      ['error', 'wrong-value', 'custom.changes.junction.amber'],
      ['error', 'wrong-value', 'custom.changes.pelican.exists'],
      ['error', 'wrong-value', 'custom.changes.drives'],
      ['error', 'wrong-value', 'custom.changes.junction.green'],
    ]);
    expect(own({ drives: 'up' }).findings[0]?.why).toBe('Expected is "left" or "right".');
    expect(own({ 'levelCrossing.amber': 'long' }).findings[0]?.why).toBe(
      'Expected is a time in seconds, or null where there is none.',
    );
  });

  it('a time of zero, but for those that may be nothing', () => {
    expect(told({ 'junction.amber': 0 })).toEqual([['error', 'zero-time', 'custom.changes.junction.amber']]);
    expect(told({ 'junction.allRed': 0, 'pelican.heldFlashing': 0 })).toEqual([]);
  });

  it('a practice to come from that there is not, its own included', () => {
    for (const from of ['uk-1865', 'custom', 'constructor']) {
      expect(own({}, from)).toMatchObject({
        practice: null,
        findings: [{ code: 'unknown-practice', path: 'custom.from' }],
      });
    }
  });

  it('custom without saying what, and saying what without custom', () => {
    expect(practiceOf({ practice: 'custom' })).toMatchObject({
      practice: null,
      findings: [{ code: 'custom-missing', path: 'custom' }],
    });
    const custom = { from: 'uk-today', name: 'Unused', changes: {} };
    expect(practiceOf({ practice: 'usa-today', custom })).toMatchObject({
      practice: { id: 'usa-today' },
      findings: [{ severity: 'warning', code: 'not-used', path: 'custom' }],
    });
  });

  it('a practice that there is not: the ones that there are, and custom', () => {
    expect(practiceOf({ practice: 'uk' }).findings[0]?.cure).toBe(
      'Use one of these: uk-today, uk-1965, usa-today, germany-today, custom.',
    );
  });

  it('nothing throws, whatever the names and values', () => {
    const values = fc.oneof(fc.double({ noNaN: true }), fc.boolean(), fc.string(), fc.constant(null));
    const keys = fc.oneof(fc.constantFrom(...CHANGE_KEYS.keys()), fc.string());
    fc.assert(
      fc.property(fc.dictionary(keys, values), fc.constantFrom(...PRACTICES), (changes, { id }) => {
        const { practice, findings } = own(changes, id);
        expect(practice === null).toBe(findings.some((it) => it.severity === 'error'));
      }),
      { numRuns: 200 },
    );
  });
});

describe('in a layout', () => {
  function layoutWith(changes: Changes) {
    const layout = smallLayout();
    layout.practice = 'custom';
    layout.custom = { from: 'uk-today', name: 'Penmarrow rules', changes };
    return layout;
  }

  it('is read, written as it was read, and reaches the dials of the board', () => {
    const text = JSON.stringify(layoutWith({ 'junction.amber': 2.5, 'zebra.on': 0.5 }));
    const { layout, findings } = parseLayout(text);
    expect(findings).toEqual([]);
    if (layout === null) return expect.fail('not read');
    expect(parseLayout(writeLayout(layout)).layout).toMatchObject(layout);
    const compiled = compileLayout(layout);
    expect(compiled.findings.filter((it) => it.severity === 'error')).toEqual([]);
    const [site, zebra] = compiled.boards[0]?.table.sites ?? [];
    const dials = compiled.boards[0]?.sites[0]?.dials.map((it) => it.id) ?? [];
    expect(site?.dials[dials.indexOf('amber')]).toBe(2500);
    expect(zebra?.dials).toEqual([500, 750]);
  });

  it('says where a change cannot be read', () => {
    expect(parseLayout(JSON.stringify(layoutWith({ 'junction.amber': -1 }))).findings).toMatchObject([
      { severity: 'error', code: 'negative-time', path: 'custom.changes.junction.amber' },
    ]);
    const nested = layoutWith({});
    nested.custom.changes = { 'junction.amber': { usual: 3 } };
    nested.custom.form = 'uk-today';
    expect(parseLayout(JSON.stringify(nested)).findings.map((it) => [it.code, it.path])).toEqual([
      ['wrong-value', 'custom.changes.junction.amber'],
      ['unknown-key', 'custom.form'],
    ]);
  });
});
