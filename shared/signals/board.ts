/** One board of a layout: sites to programs, outputs to numbers. */
import { type Finding, hasErrors } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import type { Board, Lamp } from '../layout/outputs.ts';
import { toMs } from '../layout/scalars.ts';
import type { Layout, Site } from '../layout/schema.ts';
import type { Practice } from '../practice/practice.ts';
import type { BoardTable, Chain, InputPin, LampOutput, SiteBinding } from '../table/model.ts';
import type { CompiledBoard, CompiledDial, CompiledLamp, CompiledSite } from './compile.ts';
import { checkDemands } from './demands.ts';
import type { PlannedDial } from './dials.ts';
import { planGroups } from './groups.ts';
import { Inputs } from './inputs.ts';
import { planJunction } from './junction.ts';
import { planBeacons } from './kinds/beacons.ts';
import { planColourLight } from './kinds/colour-light.ts';
import { planCrossing } from './kinds/crossing.ts';
import { planFlicker } from './kinds/flicker.ts';
import { planIndicators } from './kinds/indicators.ts';
import { planLevelCrossing } from './kinds/level-crossing.ts';
import { planPelican } from './kinds/pelican.ts';
import { planShuttle } from './kinds/shuttle.ts';
import { planStreetLamps } from './kinds/street-lamps.ts';
import { checkProgramLimits, checkTableLimits } from './limits.ts';
import { withOwnLimits } from './own-limits.ts';
import { Outputs } from './pins.ts';
import { Programs } from './programs.ts';
import { planProgram } from './raw.ts';
import type { Planned, SitePlan } from './site.ts';
import { planZebra } from './zebra.ts';

interface PlacedSite {
  readonly site: Site;
  readonly plan: SitePlan;
}

/** `board` is null when there is an error among the findings, or no site on the board. */
export function compileBoard(
  layout: Layout,
  board: Board,
  boardIndex: number,
  practice: Practice,
): { board: CompiledBoard | null; findings: Finding[] } {
  const place = `boards[${boardIndex}]`;
  const findings: Finding[] = [];
  const outputs = new Outputs(board);
  const inputs = new Inputs(layout, board);
  const groups = planGroups(layout, board);
  findings.push(...groups.findings);

  const chain = planChain(board, place, outputs);
  const placed: PlacedSite[] = [];
  layout.sites.forEach((site, index) => {
    if (site.board !== board.id) return;
    const path = `sites[${index}]`;
    const planned = withOwnLimits(site, path, planSite(site, path, practice, groups.commonCycle(site), board));
    findings.push(...planned.findings, ...groups.checkSite(site, path, planned.plan));
    if (planned.plan === null) return;
    findings.push(...checkProgramLimits(site.name, path, planned.plan));
    placed.push({ site, plan: planned.plan });
  });
  findings.push(...checkDemands(layout, board.id, placed));

  const lamps: LampOutput[] = [];
  const addLamp = (lamp: Lamp, path: string, name: string): number => {
    lamps.push(lampOutput(lamp, name, outputs.lamp(lamp, path, name) ?? 0));
    return lamps.length - 1;
  };
  const others: CompiledLamp[] = [];
  const addOther = (lamp: Lamp, path: string, name: string): number => {
    const index = addLamp(lamp, path, name);
    others.push({ index, label: name, colour: '', path });
    return index;
  };
  const sites = placed.map(({ site, plan }): CompiledSite => {
    const numbered = plan.lamps.map(({ label, colour, output, path }) => ({
      index: addLamp(output, path, `${site.name}, ${label} ${colour}`),
      label,
      colour,
      path,
    }));
    return { id: site.id, name: site.name, dials: plan.dials.map(namesOf), lamps: numbered, rows: plan.rows };
  });

  const inputPins = inputs.list.map(({ input, path }): InputPin => {
    const pin = outputs.pin(input.pin, `${path}.pin`, input.name) ?? 0;
    const debounce = toMs(input.debounce ?? 0.02);
    if (debounce > 250) findings.push(longDebounce(`${path}.debounce`));
    const indicator =
      input.indicator === undefined ? null : addOther(input.indicator, `${path}.indicator`, `${input.name}, indicator`);
    return {
      name: input.name,
      pin,
      activeLow: input.activeLow ?? true,
      pullUp: input.pullUp ?? true,
      debounce,
      indicator,
    };
  });
  const switchInput = (id: string | undefined, key: string): number | null =>
    id === undefined ? null : inputs.number(id, `${place}.switches.${key}`);
  const programs = new Programs();
  const bindings = placed.map(({ site, plan }): SiteBinding => {
    return {
      name: site.name,
      program: programs.add(plan.program),
      start: plan.start,
      offset: plan.offset,
      atNight: site.atNight ?? 'run',
      group: groups.number(site),
      inputs: plan.inputs.map((input) => inputs.number(input.id, input.path)),
      dials: plan.dials.map((dial) => dial.value),
    };
  });
  const table: BoardTable = {
    chip: board.chip,
    sweep: toMs(board.sweep ?? 0),
    nightLevel: Math.round(((board.nightLevel ?? 100) / 100) * 255),
    nightInput: switchInput(board.switches?.night, 'night'),
    offInput: switchInput(board.switches?.off, 'off'),
    chain,
    groups: groups.table(inputs, addOther),
    lamps,
    inputs: inputPins,
    programs: programs.list,
    sites: bindings,
  };
  if (table.sweep > 2550) findings.push(longSweep(`${place}.sweep`));
  findings.push(...outputs.findings, ...inputs.findings);
  if (!hasErrors(findings)) findings.push(...checkTableLimits(board, place, table));
  if (hasErrors(findings) || sites.length === 0) return { board: null, findings };
  return { board: { id: board.id, name: board.name, table, sites, others }, findings };
}

function planSite(
  site: Site,
  path: string,
  practice: Practice,
  common: { cycle: number; greatest: number } | null,
  board: Board,
): Planned {
  switch (site.kind) {
    case 'junction':
      return planJunction(site, path, practice, common);
    case 'zebra':
      return planZebra(site, path, practice);
    case 'pelican':
      return planPelican(site, path, practice, common);
    case 'crossing':
      return planCrossing(site, path, practice, common);
    case 'level-crossing':
      return planLevelCrossing(site, path, practice);
    case 'shuttle':
      return planShuttle(site, path, practice);
    case 'program':
      return planProgram(site, path);
    case 'colour-light':
      return planColourLight(site, path, practice, common);
    case 'street-lamps':
      return planStreetLamps(site, path, practice, board);
    case 'indicators':
      return planIndicators(site, path, practice);
    case 'beacons':
      return planBeacons(site, path, practice);
    case 'flicker':
      return planFlicker(site, path, practice);
  }
}

function namesOf({ id, name, leastBecause, rule, owner }: PlannedDial): CompiledDial {
  return { id, name, ...(leastBecause && { leastBecause }), ...(rule && { rule }), ...(owner && { owner }) };
}

function planChain(board: Board, place: string, outputs: Outputs): Chain | null {
  if (board.chain === undefined) return null;
  const { chips, data, clock, latch, enable } = board.chain;
  const pin = (key: string, value: string | number): number =>
    outputs.pin(value, `${place}.chain.${key}`, `the chain's ${key}`) ?? 0;
  return {
    chips,
    data: pin('data', data),
    clock: pin('clock', clock),
    latch: pin('latch', latch),
    enable: enable === undefined ? null : pin('enable', enable),
  };
}

/** The board has 31 steps of brightness; none of them is dark, which is what row states are for. */
function lampOutput(lamp: Lamp, name: string, output: number): LampOutput {
  return {
    name,
    output,
    activeLow: lamp.activeLow ?? false,
    type: lamp.source ?? 'led',
    brightness: Math.round(((lamp.brightness ?? 100) / 100) * 31),
  };
}

function longDebounce(path: string): Finding {
  return error('debounce-too-long', path, {
    what: 'The input waits for more than 0.25 s before it believes a level.',
    why: 'The board counts up to 0.255 s.',
    cure: 'Write 0.25 or less; 0.02 suits most buttons.',
  });
}

function longSweep(path: string): Finding {
  return error('sweep-too-long', path, {
    what: 'The sweep takes more than 2.55 s a lamp.',
    why: 'The board counts up to 2.55 s.',
    cure: 'Write a shorter time, such as 0.2.',
  });
}
