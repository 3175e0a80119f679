/** The example town, and a person at the panel with it. */
import { readFileSync } from 'node:fs';
import { createModel, type Model } from '../../renderer/model/model.ts';
import { createPreferences, type Store } from '../../renderer/model/preferences.ts';
import { FakeWorkbench } from './fake-workbench.ts';

export const PENMARROW = readFileSync(new URL('../../shared/layout/examples/penmarrow.json', import.meta.url), 'utf8');

/** Penmarrow with its crossing on a board of its own. */
export function twoBoards(): string {
  const layout = JSON.parse(PENMARROW);
  const [town] = layout.boards;
  layout.boards = [town, { ...town, id: 'harbour', name: 'Harbour board' }];
  layout.sites[2].board = 'harbour';
  return JSON.stringify(layout);
}

export function memoryStore(): Store {
  const kept = new Map<string, string>();
  return { getItem: (key) => kept.get(key) ?? null, setItem: (key, value) => kept.set(key, value) };
}

export interface Bench {
  readonly host: FakeWorkbench;
  readonly model: Model;
  /** Wall and board time go on together, at the board's speed. */
  pass(ms: number): void;
  /** Wall time alone goes on: nothing is heard of the board. */
  silence(ms: number): void;
  settle(): Promise<void>;
}

/** A panel whose host runs Penmarrow; its clock only moves when told. */
export async function openBench(text = PENMARROW): Promise<Bench> {
  let now = 0;
  const host = new FakeWorkbench(text);
  host.startExample();
  const model = createModel(host, { now: () => now, preferences: createPreferences(memoryStore()) });
  const settle = async (): Promise<void> => {
    for (let turn = 0; turn < 50; turn++) await Promise.resolve();
  };
  await model.refresh();
  return {
    host,
    model,
    settle,
    pass: (ms) => {
      for (let left = ms; left > 0; left -= 10) {
        now += 10;
        host.advance(10 * (host.boards[0]?.speed ?? 1));
      }
      model.frame();
    },
    silence: (ms) => {
      now += ms;
      model.frame();
    },
  };
}
