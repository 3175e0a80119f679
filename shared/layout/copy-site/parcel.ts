/**
 * A site on its own, as it goes from one layout to another: with its timings, its heads and the buttons and detectors
 * that it asks, without its outputs. In their place stand bits of a chain that is nowhere, counted from 0, so that
 * lamps which shared an output share one again.
 */
import { z } from 'zod';
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import { readJson } from '../json.ts';
import { Input } from '../outputs.ts';
import { type Layout, Site } from '../schema.ts';
import { writeJson } from '../write.ts';
import { type Hang, inputsIn, withHangs } from './parts.ts';

const FORMAT = 'amberwick-site';
const VERSION = 1;

const Parcel = z.object({
  format: z.literal(FORMAT),
  version: z.literal(VERSION),
  site: Site,
  inputs: z.array(Input),
});

export interface Parcel {
  readonly site: Site;
  readonly inputs: readonly Input[];
}

export type ReadParcel =
  | { readonly ok: true; readonly parcel: Parcel }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Null where there is no such site. */
export function parcelOf(layout: Layout, siteId: string): Parcel | null {
  const found = layout.sites.find(({ id }) => id === siteId);
  if (found === undefined) return null;
  const { group: _, offset: __, place: ___, ...alone } = found as Site & { offset?: number };
  const named = inputsIn(alone);
  const inputs = (layout.inputs ?? []).filter(({ id }) => named.includes(id));
  const numbers = new Map<string, number>();
  const counted = ({ pin, bit }: Hang): Hang => {
    const output = JSON.stringify(
      pin === undefined ? { bit } : { pin: typeof pin === 'string' ? pin.toUpperCase() : pin },
    );
    const number = numbers.get(output) ?? numbers.size;
    numbers.set(output, number);
    return { bit: number };
  };
  const site = withHangs(alone, counted) as Site;
  return {
    site,
    // The pin of an input is no output: it stays as it is until the input gets another one.
    inputs: inputs.map((input) => ({
      ...input,
      ...(input.indicator && { indicator: withHangs(input.indicator, counted) }),
    })),
  };
}

export function writeParcel({ site, inputs }: Parcel): string {
  return writeJson({ format: FORMAT, version: VERSION, site, inputs });
}

/** Never throws. */
export function readParcel(text: string): ReadParcel {
  const json = readJson(text);
  const parsed = json.ok ? Parcel.safeParse(json.value) : null;
  if (parsed?.success) return { ok: true, parcel: parsed.data };
  return {
    ok: false,
    findings: [
      error('not-a-site', '', {
        what: 'This is no site that was copied.',
        why: 'A site is copied as text of its own kind, and this is not one, or one of a newer Amberwick.',
        cure: 'Copy the site again, then paste.',
      }),
    ],
  };
}
