/** Where the document has the times of the dials of a site. */
import type { Site } from '../../layout/schema.ts';

/** Field by dial id; a dot leads into a part of the site. */
type Fields = Readonly<Record<string, string>>;

const FLASH: Fields = { 'flash-on': 'flashOn', 'flash-off': 'flashOff' };
const BARE_FLASH: Fields = { 'flash-on': 'on', 'flash-off': 'off' };

const FIELDS: Readonly<Partial<Record<Site['kind'], Fields>>> = {
  zebra: BARE_FLASH,
  indicators: BARE_FLASH,
  beacons: { ...BARE_FLASH, flash: 'on', pause: 'pause' },
  pelican: {
    ...FLASH,
    'vehicle-green': 'vehicleGreen',
    amber: 'amber',
    'all-red': 'allRed',
    'steady-green': 'steadyGreen',
    'held-flashing': 'heldFlashing',
    flashing: 'flashing',
    clearance: 'clearance',
    offset: 'offset',
  },
  crossing: {
    ...FLASH,
    'vehicle-green': 'vehicleGreen',
    amber: 'amber',
    'all-red-before': 'allRedBefore',
    walk: 'walk',
    clearance: 'clearance',
    'all-red-after': 'allRedAfter',
    'red-with-amber': 'redWithAmber',
    offset: 'offset',
  },
  'level-crossing': {
    ...FLASH,
    amber: 'amber',
    'least-red': 'leastRed',
    'clear-after': 'clearAfter',
    'quiet-least': 'quiet.least',
    'quiet-most': 'quiet.most',
    passing: 'passing',
  },
  shuttle: {
    'min-green': 'minGreen',
    gap: 'gap',
    amber: 'amber',
    'red-with-amber': 'redWithAmber',
    'all-red': 'allRed',
  },
  'street-lamps': {
    settle: 'settle',
    'pause-low': 'pause.shortest',
    'pause-high': 'pause.longest',
    'flicker-low': 'flicker.shortest',
    'flicker-high': 'flicker.longest',
  },
  flicker: {
    'moments-low': 'moments.shortest',
    'moments-high': 'moments.longest',
    'rest-low': 'rest.shortest',
    'rest-high': 'rest.longest',
  },
  'colour-light': {
    overlap: 'overlap',
    section: 'section',
    offset: 'offset',
    'trains-low': 'trains.shortest',
    'trains-high': 'trains.longest',
  },
};

/** Times by dial id, ms. */
export type Times = ReadonlyMap<string, number>;

/** Seconds of the document: the board counts hundredths. */
export function toSeconds(ms: number): number {
  return Math.round(ms / 10) / 100;
}

/**
 * The site with these times in its fields; `all` has every dial as it should come out. Dials without a field
 * change nothing: whoever asks sees it by what is compiled. A junction is `withJunctionTimes`.
 */
export function withTimes(site: Exclude<Site, { kind: 'junction' }>, times: Times, all: Times): Site {
  const fields = FIELDS[site.kind] ?? {};
  let next: Site = site;
  for (const [id, ms] of times) {
    const field = fields[id];
    if (field !== undefined) next = withField(next, field, toSeconds(ms));
  }
  if (next.kind === 'program') {
    const dials = next.dials.map((dial) => {
      const ms = times.get(dial.id);
      return ms === undefined ? dial : { ...dial, value: toSeconds(ms) };
    });
    return { ...next, dials };
  }
  if (next.kind === 'shuttle') {
    const [one, other] = next.ends;
    const end = (it: typeof one): typeof one => {
      const ms = times.get(`green-${it.id}`);
      return ms === undefined ? it : { ...it, green: toSeconds(ms) };
    };
    return { ...next, ends: [end(one), end(other)] };
  }
  if (next.kind === 'crossing' && (times.has('clearance') || times.has('clearance-most'))) {
    const [most, least] = [all.get('clearance-most'), all.get('clearance')];
    // The longest clearance is the usual one and what detectors add.
    if (most !== undefined && least !== undefined && most > least) {
      return { ...next, extension: toSeconds(most - least) };
    }
  }
  if (next.kind === 'level-crossing' && next.quiet !== undefined) {
    const { quiet } = next;
    const seconds = (id: string, known: number | undefined): number => known ?? toSeconds(all.get(id) ?? 0);
    return {
      ...next,
      quiet: { least: seconds('quiet-least', quiet.least), most: seconds('quiet-most', quiet.most) },
    };
  }
  return next;
}

function withField(site: Site, field: string, value: number): Site {
  const [first = '', second] = field.split('.');
  const part = (site as Readonly<Record<string, unknown>>)[first];
  const inner = second === undefined ? value : { ...(typeof part === 'object' ? part : {}), [second]: value };
  return { ...site, [first]: inner } as Site;
}
