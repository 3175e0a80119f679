/**
 * Demands that nobody takes back, or that one site takes from another: a demand
 * belongs to the board's input, not to the site that waits for it.
 */
import type { Finding } from '../findings/finding.ts';
import { warning } from '../findings/make.ts';
import type { Layout } from '../layout/schema.ts';
import type { Program, Row } from '../table/model.ts';
import type { SitePlan } from './site.ts';

interface PlannedSite {
  readonly site: { readonly name: string; readonly board: string };
  readonly plan: SitePlan;
}

/** Of the sites of one board; `board` is its id. */
export function checkDemands(layout: Layout, board: string, sites: readonly PlannedSite[]): Finding[] {
  return [...stuckIndicators(layout, board, sites), ...sharedDemands(sites)];
}

/** Program inputs whose demand the program takes back. */
function served(program: Program): Set<number> {
  return new Set(
    program.rows.flatMap((row) => (row.op === 'clear' ? row.inputs : row.op === 'extend' ? row.detectors : [])),
  );
}

/** Program inputs whose demand decides something. */
function awaited(program: Program): Set<number> {
  const inputs = (row: Row): readonly number[] => {
    if (row.op === 'extend') return row.opposing;
    if (!('when' in row) || (row.when.kind !== 'demand' && row.when.kind !== 'noDemand')) return [];
    return row.when.inputs;
  };
  return new Set(program.rows.flatMap(inputs));
}

/** Lamps that say WAIT and are lit for ever after the first press. */
function stuckIndicators(layout: Layout, board: string, sites: readonly PlannedSite[]): Finding[] {
  // A site with errors has no plan: what it would serve is not known.
  if (layout.sites.filter((site) => site.board === board).length > sites.length) return [];
  const taken = new Set(
    sites.flatMap(({ plan }) => [...served(plan.program)].map((input) => plan.inputs[input]?.id ?? '')),
  );
  return (layout.inputs ?? []).flatMap((input, index) => {
    if (input.board !== board || input.indicator === undefined || taken.has(input.id)) return [];
    return [
      warning('demand-never-served', `inputs[${index}].indicator`, {
        what: `No site serves a demand of ${input.name}.`,
        why: 'Its lamp would be lit from the first time it is used, for ever.',
        cure: 'Name the input as the button of a crossing, or take its indicator out.',
      }),
    ];
  });
}

function sharedDemands(sites: readonly PlannedSite[]): Finding[] {
  const owners = new Map<string, string>();
  return sites.flatMap(({ site, plan }) => {
    const waits = awaited(plan.program);
    return [...served(plan.program)].flatMap((number) => {
      const input = plan.inputs[number];
      if (input === undefined || !waits.has(number)) return [];
      const owner = owners.get(input.id);
      if (owner === undefined) {
        owners.set(input.id, site.name);
        return [];
      }
      return [
        warning('demand-shared', input.path, {
          what: `${site.name} and ${owner} wait for the same input "${input.id}".`,
          why: 'Whichever serves it first takes the demand away from the other, which may never serve it.',
          cure: 'Give each its own input; two pins can hang on one button.',
        }),
      ];
    });
  });
}
