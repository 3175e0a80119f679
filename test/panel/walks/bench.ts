/** The panel's model on the real host, with a scripted board that runs and keeps the example. */
import { createModel, type Model } from '../../../renderer/model/model.ts';
import { createPreferences } from '../../../renderer/model/preferences.ts';
import type { Workbench } from '../../../shared/workbench/contract.ts';
import { connected } from '../../host-service/rig.ts';
import { memoryStore } from '../example.ts';

export interface WalkBench {
  readonly model: Model;
  /** Wall time goes on, ms: presses further apart than 1.5 s are steps of their own. */
  pass(ms: number): void;
  settle(): Promise<void>;
  /** Everything that undo promises to bring back, as one text. */
  state(): string;
}

export async function walkBench(): Promise<WalkBench> {
  const rig = await connected();
  const workbench: Workbench = {
    call: rig.call,
    on: (wanted, listener) =>
      rig.host.telling((name, data) => {
        if ((name as string) === wanted) (listener as (data: unknown) => void)(data);
      }),
  };
  let now = 0;
  const model = createModel(workbench, { now: () => now, preferences: createPreferences(memoryStore()) });
  await model.refresh();
  const hex = (bytes: Uint8Array | null): string => Buffer.from(bytes ?? []).toString('hex');
  return {
    model,
    pass: (ms) => {
      now += ms;
    },
    settle: async () => {
      for (let turn = 0; turn < 20; turn++) await Promise.resolve();
    },
    state: () => {
      const { run, kept } = rig.real;
      const { text, open } = model;
      return [open.value.file, text.value, `runs ${hex(run)}`, `keeps ${hex(kept)}`].join('\n');
    },
  };
}
