/**
 * The wires and lamps of a virtual layout: those of the open layout with the faults that were set in them to practise
 * on. Faults live as long as this program; another layout has none.
 */
import { carryOver } from '../../../shared/electrics/circuit/carry-over.ts';
import { faultText } from '../../../shared/electrics/circuit/fault-words.ts';
import type { Load, WiringFault } from '../../../shared/electrics/model.ts';
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { problem } from '../../../shared/workbench/problems.ts';
import { fine } from '../result.ts';
import type { BoardUnit } from './board-unit.ts';
import { type VirtualUnit, virtualPath } from './virtual-boards.ts';

export class WiringFaults {
  private readonly unit: BoardUnit;
  /** Of the plan that is wired; one with mistakes is not. */
  private loads: readonly Load[];
  private virtual: VirtualUnit | null = null;

  constructor(unit: BoardUnit) {
    this.unit = unit;
    this.loads = unit.plan.loads;
  }

  /** Its virtual board has been made: wires it, and shows what its lamps do. */
  wire(virtual: VirtualUnit): void {
    const { unit } = this;
    this.virtual = virtual;
    virtual.onGlow = (glow) => unit.glowChanged(glow && byLamp(this.loads, glow));
    this.connect();
  }

  /** The plan has changed; `isOther`: another layout was opened. */
  replan(isOther: boolean): void {
    const { unit } = this;
    const { loads, compiled } = unit.plan;
    // While it is being mended, the wires stay as they are.
    if (!compiled && !isOther) return;
    unit.wiringFaults = isOther ? [] : carryOver(this.loads, unit.wiringFaults, loads);
    this.loads = loads;
    this.connect();
    unit.tellState();
  }

  async setFaults({ faults: asked }: Omit<CallArgs<'setFaults'>, 'board'>): Promise<Outcome<CallResults['setFaults']>> {
    const { unit, loads } = this;
    const { plan, link } = unit;
    const faults = asked.map(plain);
    if (!this.virtual || link.port !== virtualPath(plan.id)) return problem('noFaultsHere', link.where);
    const stray = faults.find((fault) => !fits(fault, loads));
    if (stray) return problem('noSuchFault', { ...link.where, detail: JSON.stringify(stray) });
    unit.wiringFaults = faults;
    this.connect();
    const { length } = faults;
    const text =
      length === 0
        ? `Mended the wiring of the virtual ${plan.name}.`
        : `Set ${length} wiring ${length === 1 ? 'fault' : 'faults'} on the virtual ${plan.name}.`;
    // Which ones is for the log file only: whoever practises may want to find them.
    const what = faults.map((fault) => faultText(fault, loads)).join('; ');
    unit.log('check', text, { faults: length, ...(what ? { what } : {}) });
    unit.tellState();
    return fine(unit.state());
  }

  private connect(): void {
    this.virtual?.connectCircuit({ loads: this.loads, faults: this.unit.wiringFaults });
  }
}

type Asked = CallArgs<'setFaults'>['faults'][number];

/** Without a head that is there but undefined. */
function plain(fault: Asked): WiringFault {
  if (fault.kind !== 'open' && fault.kind !== 'reversed') return fault;
  const { kind, lamp, head } = fault;
  return head === undefined ? { kind, lamp } : { kind, lamp, head };
}

function fits(fault: WiringFault, loads: readonly Load[]): boolean {
  const load = loads.find(({ lamp }) => lamp === fault.lamp);
  if (!load) return false;
  if ('with' in fault) return fault.with !== fault.lamp && loads.some(({ lamp }) => lamp === fault.with);
  return !('head' in fault) || fault.head === undefined || fault.head < load.heads.length;
}

/** From the order of the loads to the numbers of the table. */
function byLamp<T>(loads: readonly Load[], glow: readonly (readonly T[])[]): (readonly T[])[] {
  const most = Math.max(-1, ...loads.map(({ lamp }) => lamp));
  const all: (readonly T[])[] = Array.from({ length: most + 1 }, () => []);
  loads.forEach(({ lamp }, index) => {
    all[lamp] = glow[index] ?? [];
  });
  return all;
}
