/** What a board tells without being asked. `ms` is the board time, 32 bits. */
import { type FaultKey, faultOf } from './codes.ts';
import { type DeedKey, Fields, type FlagKey } from './fields.ts';
import type { EventLine } from './line.ts';
import { misunderstood, type Result } from './result.ts';
import { DEEDS, FLAGS } from './vocabulary.ts';

export type BoardEvent =
  | { readonly word: 'hello'; readonly protocol: number; readonly cause: string; readonly flags: ReadonlySet<FlagKey> }
  /** `lit` has four entries for each digit on the wire: at least one for each lamp. */
  | { readonly word: 'lamps'; readonly ms: number; readonly lit: readonly boolean[] }
  | { readonly word: 'row'; readonly ms: number; readonly site: number; readonly row: number }
  | { readonly word: 'demand'; readonly ms: number; readonly input: number }
  | { readonly word: 'fault'; readonly ms: number; readonly site: number; readonly fault: FaultKey }
  | { readonly word: 'gap'; readonly ms: number }
  | { readonly word: 'alone'; readonly ms: number }
  | { readonly word: 'guard'; readonly ms: number; readonly deed: DeedKey | 'unknown' };

/** Understands an event line; words of a newer firmware are an error to be passed over. */
export function parseEvent({ word, fields: texts }: EventLine): Result<BoardEvent> {
  const fields = new Fields(texts);
  if (word === 'hello') {
    const [protocol, cause] = [fields.decimal('protocol'), fields.text('cause')];
    return fields.finish({ word, protocol, cause, flags: fields.flags('flags', FLAGS) });
  }
  const ms = fields.decimal('ms');
  switch (word) {
    case 'lamps':
      return fields.finish({ word, ms, lit: fields.bits('lit') });
    case 'row':
      return fields.finish({ word, ms, site: fields.decimal('site'), row: fields.decimal('row') });
    case 'demand':
      return fields.finish({ word, ms, input: fields.decimal('input') });
    case 'fault':
      return fields.finish({ word, ms, site: fields.decimal('site'), fault: faultOf(fields.decimal('fault')) });
    case 'gap':
    case 'alone':
      return fields.finish({ word, ms });
    case 'guard': {
      const bit = fields.decimal('deed');
      return fields.finish({ word, ms, deed: DEEDS.find((deed) => deed.bit === bit)?.key ?? 'unknown' });
    }
    default:
      return misunderstood(`the event "${word}" is not known`);
  }
}

/** How many events were lost between two event numbers, as far as 8 bits tell. */
export function lostBetween(before: number, now: number): number {
  return (now - before - 1) & 0xff;
}
