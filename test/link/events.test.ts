import { describe, expect, it } from 'vitest';
import { codeOf, faultOf } from '../../shared/link/codes.ts';
import { lostBetween, parseEvent } from '../../shared/link/events.ts';
import { encodeEvent, parseLine } from '../../shared/link/line.ts';
import { CODES, EVENTS } from '../../shared/link/vocabulary.ts';

function heard(word: string, ...fields: (string | number)[]) {
  const line = parseLine(encodeEvent(0, word, fields).trimEnd());
  if (line.kind !== 'event') throw new Error('not an event');
  return parseEvent(line);
}

describe('events', () => {
  it('are all understood', () => {
    const all = [
      heard('hello', 1, 'power', '80'),
      heard('lamps', 18_000, '21'),
      heard('row', 18_000, 0, 1),
      heard('demand', 3020, 2),
      heard('fault', 5000, 1, 2),
      heard('gap', 6000),
      heard('alone', 4_294_967_295),
      heard('guard', 7000, 2),
    ];
    expect(all).toEqual(
      [
        { word: 'hello', protocol: 1, cause: 'power', flags: new Set(['labelFault']) },
        { word: 'lamps', ms: 18_000, lit: [true, false, false, false, false, true, false, false] },
        { word: 'row', ms: 18_000, site: 0, row: 1 },
        { word: 'demand', ms: 3020, input: 2 },
        { word: 'fault', ms: 5000, site: 1, fault: 'stuck' },
        { word: 'gap', ms: 6000 },
        { word: 'alone', ms: 4_294_967_295 },
        { word: 'guard', ms: 7000, deed: 'renewed' },
      ].map((value) => ({ ok: true, value })),
    );
    expect(all.flatMap((event) => (event.ok ? event.value.word : []))).toEqual(EVENTS.map(({ word }) => word));
  });

  it('of a newer firmware are passed over, not misread', () => {
    expect(heard('weather', 5)).toEqual({
      ok: false,
      error: { kind: 'misunderstood', what: 'the event "weather" is not known' },
    });
  });

  it('that were lost show in their numbers', () => {
    expect([lostBetween(3, 4), lostBetween(255, 0), lostBetween(3, 7), lostBetween(250, 2)]).toEqual([0, 0, 3, 7]);
  });
});

describe('codes', () => {
  it('all have a short lower-case reason without digits, and a cure', () => {
    for (const { reason, cure } of CODES) {
      expect(reason).toMatch(/^[a-z ]{1,40}$/);
      expect(cure).toMatch(/^[A-Z].*\.$/);
    }
    expect(new Set(CODES.map(({ code }) => code)).size).toBe(CODES.length);
  });

  it('that are not known keep the reason from the wire', () => {
    expect(codeOf(250, 'lamp too bright')).toMatchObject({ key: 'unknown', reason: 'lamp too bright' });
    expect(faultOf(9)).toBe('unknown');
  });
});
