/** The answers of a guided start, and how a layout that glows is made of them. */
import { computed, type Signal, signal } from '@preact/signals';
import type { Finding } from '../../shared/findings/finding.ts';
import { makeLayout } from '../../shared/layout/new-layout/make.ts';
import { type Lackable, STARTS, type Start } from '../../shared/layout/new-layout/starts.ts';
import type { Board } from '../../shared/layout/outputs.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { missing } from '../../shared/practice/missing.ts';
import type { Practice } from '../../shared/practice/practice.ts';
import { findPractice, PRACTICES } from '../../shared/practice/practices.ts';
import { ratioOf, SCALES, type ScaleRule } from '../../shared/scale/ratios.ts';
import { suggestedName } from '../../shared/workbench/file-names.ts';
import type { Model } from '../model/model.ts';

export const STEPS = ['scale', 'practice', 'board', 'site'] as const;
export type Step = (typeof STEPS)[number];

/** Where the new layout runs at once: the virtual board, or the path of a port. */
export const VIRTUAL = 'virtual';

/** `making`: the layout is opened and sent; `failed`: it is open, and does not run yet. */
export type Progress = 'asking' | 'making' | 'failed';

export class StartModel {
  readonly step: Signal<Step> = signal('scale');
  readonly scale: Signal<ScaleRule['id']> = signal('OO');
  readonly practice: Signal<string> = signal(PRACTICES[0]?.id ?? '');
  readonly chip: Signal<Board['chip']> = signal('atmega328p');
  readonly port: Signal<string> = signal(VIRTUAL);
  readonly site: Signal<string> = signal(STARTS[0]?.id ?? '');
  /** Empty: the usual name. */
  readonly name: Signal<string> = signal('');
  readonly progress: Signal<Progress> = signal('asking');
  readonly findings: Signal<readonly Finding[]> = signal([]);
  readonly starts = computed(() => startsIn(findPractice(this.practice.value)));

  back(): void {
    this.step.value = STEPS[Math.max(0, STEPS.indexOf(this.step.value) - 1)] ?? 'scale';
  }

  on(): void {
    this.step.value = STEPS[Math.min(STEPS.length - 1, STEPS.indexOf(this.step.value) + 1)] ?? 'site';
    // What was chosen before may be of another country.
    const { value: starts } = this.starts;
    if (!starts.some(({ id }) => id === this.site.value)) this.site.value = starts[0]?.id ?? '';
  }

  /** Opens the layout, sends it and keeps it on the virtual board. True when its lamps are lit. */
  async make(model: Model): Promise<boolean> {
    const practice = findPractice(this.practice.value);
    const start = this.starts.value.find(({ id }) => id === this.site.value);
    if (!practice || !start) return false;
    const made = makeLayout({
      name: this.name.value.trim() || 'My layout',
      scale: this.scale.value,
      ratio: ratioOf(this.scale.value),
      practice: practice.id,
      chip: this.chip.value,
      start,
      lacks: lacksOf(practice),
      levelCrossingAmber: practice.levelCrossing.amber !== null,
    });
    if ('findings' in made) {
      this.findings.value = made.findings;
      return false;
    }
    const { layout } = made;
    this.progress.value = 'making';
    const what = `Began ${layout.name}: ${start.name.toLowerCase()}, ${this.scale.value}, ${practice.name}.`;
    const opened = await model.ask('newLayout', { name: suggestedName(layout.name), text: writeLayout(layout), what });
    const board = layout.boards[0]?.id ?? '';
    const runs = opened.ok && (await this.run(model, board));
    this.progress.value = opened.ok && !runs ? 'failed' : 'asking';
    return runs;
  }

  private async run(model: Model, board: string): Promise<boolean> {
    const isVirtual = this.port.value === VIRTUAL;
    const port = isVirtual ? `virtual:${board}` : this.port.value;
    if (!(await model.ask('connect', { board, port })).ok) return false;
    if (!(await model.ask('send', { board })).ok) return false;
    // A real board keeps what it has until its owner says so.
    return !isVirtual || (await model.ask('keep', { board })).ok;
  }
}

export function scaleName({ id, name, ratio }: ScaleRule): string {
  const told = Number.isInteger(ratio.value) ? ratio.value : ratio.value.toFixed(1);
  return name === id ? `${name}, 1:${told}` : name.includes(':') ? name : `${name}, 1:${told}`;
}

/** The ones that most people have first. */
export const OFFERED_SCALES: readonly ScaleRule[] = [...SCALES].sort((a, b) => rank(a.id) - rank(b.id));

function rank(id: string): number {
  const at = ['OO', 'HO', 'N-UK', 'N'].indexOf(id);
  return at < 0 ? SCALES.length : at;
}

function startsIn(practice: Practice | null): readonly Start[] {
  return practice ? STARTS.filter((start) => start.sites(lacksOf(practice)) !== null) : [];
}

function lacksOf(practice: Practice): (kind: Lackable) => boolean {
  return (kind) => missing(practice, kind) !== null;
}
