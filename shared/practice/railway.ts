/** Colour-light signals of the railways. */
import { common, type Fact, fact, time } from './fact.ts';
import type { RailwayPractice } from './kinds.ts';

const GLOSSARY = 'Network Rail glossary';

const times = {
  overlap: time('Overlap', common(2000), [0, 60000]),
  trainsLow: time('Time between trains, shortest', common(30000), [1000, 600000]),
  trainsHigh: time('Time between trains, longest', common(90000), [1000, 600000]),
  section: time('Train in a section', common(8000), [500, 120000]),
};

const threeAspectHead: RailwayPractice['threeAspectHead'] = common(['green', 'yellow', 'red']);

export const RAILWAY_UK: RailwayPractice = {
  exists: fact(true, 'seen', GLOSSARY),
  aspects: fact(['red', 'yellow', 'double-yellow', 'green'], 'seen', GLOSSARY),
  fourAspectHead: fact(['yellow', 'green', 'yellow', 'red'], 'seen', `${GLOSSARY}: the single yellow is the lower one`),
  threeAspectHead,
  ...times,
};

/** Three aspects; the double yellow is the UK's own. */
export function railwayOf(source: Fact<boolean>): RailwayPractice {
  return {
    exists: source,
    aspects: common(['red', 'yellow', 'green']),
    fourAspectHead: null,
    threeAspectHead,
    ...times,
  };
}
