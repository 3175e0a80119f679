/** Each kind of mistake in a junction or a crossing gives exactly one finding, at its place. */
import { describe, expect, it } from 'vitest';
import { smallLayout } from './small.ts';
import { expectOneFinding, findingsOf, type Mistake } from './told.ts';

const J = 'sites.0';
const G = 'sites.0.intergreens';

const TIMES: readonly Mistake[] = [
  ['zero time', { [`${J}.stages.0.green`]: 0 }, 'error zero-time sites[0].stages[0].green'],
  ['negative green', { [`${J}.stages.1.green`]: -5 }, 'error negative-time sites[0].stages[1].green'],
  ['time in words', { [`${J}.stages.1.green`]: '12 s' }, 'error not-a-number sites[0].stages[1].green'],
  ['time between two steps', { [`${J}.stages.0.green`]: 18.005 }, 'error time-step sites[0].stages[0].green'],
  ['long time with a fraction', { [`${J}.startDelay`]: 400.5 }, 'error time-step sites[0].startDelay'],
  ['time beyond nine hours', { [`${J}.startDelay`]: 40000 }, 'error time-too-long sites[0].startDelay'],
  ['green under the minimum', { [`${J}.stages.0.green`]: 5 }, 'error green-below-minimum sites[0].stages[0].green'],
  ['green under its own', { [`${J}.phases.1.minGreen`]: 13 }, 'error green-below-minimum sites[0].stages[1].green'],
  ['green too long', { [`${J}.stages.0.green`]: 300 }, 'error time-outside-limits sites[0].stages[0].green'],
  ['amber beyond its dial', { [`${J}.amber`]: 20, [G]: undefined }, 'error time-outside-limits sites[0].amber'],
  ['amber of another country', { [`${J}.amber`]: 4, [G]: undefined }, 'warning unusual-time sites[0].amber'],
  ['intergreen short', { [`${G}.B.A`]: 4.5 }, 'error intergreen-short sites[0].intergreens.B.A'],
  ['intergreen without end', { [`${G}.B.A`]: 400 }, 'error time-outside-limits sites[0].intergreens.B.A'],
  ['flash beyond its dial', { 'sites.1.on': 9 }, 'error time-outside-limits sites[1].on'],
  ['flash of another kind', { 'sites.1.off': 0.25 }, 'warning unusual-time sites[1].off'],
];

const PHASES: readonly Mistake[] = [
  [
    'conflicting greens',
    { [`${J}.stages.0.phases`]: ['A', 'B'] },
    'error conflicting-greens sites[0].stages[0].phases',
  ],
  ['phase against itself', { [`${G}.A.A`]: 5 }, 'error conflict-with-itself sites[0].intergreens.A.A'],
  ['unknown in a stage', { [`${J}.stages.1.phases`]: ['B', 'C'] }, 'error unknown-phase sites[0].stages[1].phases[1]'],
  ['unknown of a head', { [`${J}.heads.0.phase`]: 'C' }, 'error unknown-phase sites[0].heads[0].phase'],
  ['unknown in a row', { [`${G}.toString`]: { A: 5, B: 6 } }, 'error unknown-phase sites[0].intergreens.toString'],
  ['unknown in a column', { [`${G}.A.constructor`]: 5 }, 'error unknown-phase sites[0].intergreens.A.constructor'],
  ['unknown in a conflict', { [`${J}.conflicts`]: [['A', 'C']] }, 'error unknown-phase sites[0].conflicts[0][1]'],
  [
    'empty stage',
    { [`${J}.stages.2`]: { id: '3', phases: [], green: 5 } },
    'error empty-stage sites[0].stages[2].phases',
  ],
  ['no stages', { [`${J}.stages`]: [] }, 'error no-stages sites[0].stages'],
  [
    'phase never green',
    { [`${J}.phases.2`]: { id: 'C', name: 'C Street', lamps: { red: { pin: 'D8' } } } },
    'warning phase-never-green sites[0].phases[2]',
  ],
  [
    'phase always green',
    {
      [`${J}.phases.2`]: { id: 'C', name: 'C', lamps: { green: { pin: 'D8' } } },
      [`${J}.stages.0.phases`]: ['A', 'C'],
      [`${J}.stages.1.phases`]: ['B', 'C'],
    },
    'warning phase-always-green sites[0].phases[2]',
  ],
  ['phase without lamps', { [`${J}.phases.1.lamps`]: undefined }, 'warning phase-without-lamps sites[0].phases[1]'],
  ['duplicate phase', { [`${J}.phases.1.id`]: 'A' }, 'error duplicate-id sites[0].phases[1].id'],
  ['duplicate stage', { [`${J}.stages.1.id`]: '1' }, 'error duplicate-id sites[0].stages[1].id'],
  ['duplicate beacon', { 'sites.1.beacons.1.id': 'left' }, 'error duplicate-id sites[1].beacons[1].id'],
];

const PRACTICE: readonly Mistake[] = [
  ['unknown practice', { practice: 'mars-today' }, 'error unknown-practice practice'],
  ['no zebras there', { practice: 'usa-today', [G]: undefined }, 'warning not-in-practice sites[1]'],
  [
    'no red with amber there',
    { practice: 'usa-today', sites: [{ ...smallLayout().sites[0], redWithAmber: 2 }] },
    'warning not-in-practice sites[0].redWithAmber',
  ],
];

describe('one finding for times:', () => {
  it.each(TIMES)('%s', (_, edits, expected) => expectOneFinding(smallLayout(), edits, expected));
});

describe('one finding for phases and stages:', () => {
  // With phase B renamed, the stage and the intergreens that speak of it would be mistakes of their own.
  const lonely = { [`${J}.stages.1.phases`]: ['A'], [G]: undefined };
  it.each(PHASES)('%s', (kind, edits, expected) =>
    expectOneFinding(smallLayout(), kind === 'duplicate phase' ? { ...edits, ...lonely } : edits, expected),
  );
});

describe('one finding for practices:', () => {
  it.each(PRACTICE)('%s', (_, edits, expected) => expectOneFinding(smallLayout(), edits, expected));
});

it('the layout is good before it is spoilt', () => {
  expect(findingsOf(JSON.stringify(smallLayout()))).toEqual([]);
});
