/** What sharing the greens of a junction out must know of it. All times in ms. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import type { Layout } from '../../layout/schema.ts';
import type { Junction } from '../../layout/sites.ts';
import { practiceOf } from '../../practice/custom/custom.ts';
import { fact } from '../../practice/practice.ts';
import { interstage } from '../intervals.ts';
import type { JunctionPlan } from '../plan.ts';
import { resolveJunction } from '../resolve.ts';
import { needs } from '../runs.ts';

/** s lost at the start of each green. */
export const START_LOSS = fact(2, 'seen', 'Rogers, Highway Engineering, ex. 5.6 p. 142');

/** Stages whose greens together last at least so long. */
export interface Least {
  readonly stages: readonly number[];
  readonly ms: number;
}

export interface Sharing {
  readonly site: Junction;
  /** Place of the site in the layout. */
  readonly path: string;
  readonly plan: JunctionPlan;
  /** Length of the change after each stage. */
  readonly changes: readonly number[];
  /**
   * Time lost by each stage: its change without the amber, which is still
   * driven through, and the start of the next green (the same example).
   */
  readonly lost: readonly number[];
  readonly leasts: readonly Least[];
}

/** Never throws; `sharing` is null when there is an error. */
export function findSharing(layout: Layout, siteId: string): { sharing: Sharing | null; findings: Finding[] } {
  const index = layout.sites.findIndex((site) => site.id === siteId);
  const site = layout.sites[index];
  if (site === undefined) return { sharing: null, findings: [notThere(layout, siteId)] };
  const { practice, findings: told } = practiceOf(layout);
  if (practice === null) return { sharing: null, findings: told };
  const path = `sites[${index}]`;
  if (site.kind !== 'junction') return { sharing: null, findings: [noJunction(site.name, path)] };
  const { plan, findings } = resolveJunction(site, path, practice);
  if (plan === null || hasErrors(findings)) return { sharing: null, findings };
  const changes = plan.stages.map((_, stage) => interstage(plan, stage).reduce((sum, it) => sum + it.ms, 0));
  const lost = plan.stages.map((_, stage) => lostAfter(plan, stage, changes[stage] ?? 0));
  const [floor] = practice.junction.green.dial.value;
  const leasts = [...plan.stages.map((_, stage) => ({ stages: [stage], ms: floor })), ...needs(plan)];
  return { sharing: { site, path, plan, changes, lost, leasts }, findings };
}

function lostAfter(plan: JunctionPlan, stage: number, change: number): number {
  const now = plan.stages[stage]?.phases ?? [];
  const next = plan.stages[(stage + 1) % plan.stages.length]?.phases ?? [];
  const ambers = now
    .filter((phase) => !next.includes(phase) && plan.phases[phase]?.kind !== 'pedestrian')
    .map((phase) => plan.phases[phase]?.amber ?? 0);
  const starts = next.some((phase) => !now.includes(phase));
  return Math.max(0, change - Math.max(0, ...ambers)) + (starts ? START_LOSS.value * 1000 : 0);
}

function notThere(layout: Layout, siteId: string): Finding {
  return error('unknown-site', 'sites', {
    what: `The layout has no site "${siteId}".`,
    why: 'Greens belong to a junction of the layout.',
    cure: `Use one of its sites: ${layout.sites.map((site) => site.id).join(', ')}.`,
  });
}

function noJunction(name: string, path: string): Finding {
  return error('not-a-junction', path, {
    what: `${name} is no junction.`,
    why: 'Only the stages of a junction share its cycle.',
    cure: 'Choose a junction.',
  });
}
