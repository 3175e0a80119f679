/** Short commands to a running board: hold, step, start again, pause, master, press. */
import { ask, type Request } from '../../../shared/link/requests.ts';
import type { CallArgs, CallResults, Outcome } from '../../../shared/workbench/contract.ts';
import { fine } from '../result.ts';
import { askBoard, askOfLayout } from './ask-board.ts';
import type { BoardUnit } from './board-unit.ts';
import { inputName, rowName, siteName } from './sentences.ts';

type Args<N extends 'hold' | 'step' | 'again' | 'pause' | 'master' | 'press'> = Omit<CallArgs<N>, 'board'>;

const MASTERS = {
  auto: 'to follow its own switch',
  run: 'to run',
  night: 'to night',
  off: 'off',
  safe: 'to its safe aspects',
} as const;

export class BoardControls {
  private readonly unit: BoardUnit;

  constructor(unit: BoardUnit) {
    this.unit = unit;
  }

  hold({ site, on }: Args<'hold'>): Promise<Outcome<null>> {
    const { plan, view } = this.unit;
    const row = view.row(site);
    const where = row === null ? '' : ` at "${rowName(plan, site, row)}"`;
    return this.plain(
      ask.hold(site, on),
      on ? `Held ${siteName(plan, site)}${where}.` : `Let ${siteName(plan, site)} run on.`,
      {
        site,
        on,
      },
    );
  }

  async step({ site }: Args<'step'>): Promise<Outcome<CallResults['step']>> {
    const { unit } = this;
    const shown = unit.view.row(site);
    const stepped = await askOfLayout(unit, ask.step(site));
    if (!stepped.ok) return stepped;
    // The answer to a repeat carries no row.
    const row = stepped.value ?? shown ?? 0;
    unit.log('control', `Stepped ${siteName(unit.plan, site)} on from "${rowName(unit.plan, site, row)}".`, {
      site,
      row,
    });
    await unit.snapshot();
    return fine({ row });
  }

  again({ site }: Args<'again'>): Promise<Outcome<null>> {
    const { plan } = this.unit;
    const text =
      site === null
        ? `Started all of ${plan.name} from the beginning.`
        : `Started ${siteName(plan, site)} from the beginning.`;
    return this.plain(site === null ? ask.again() : ask.again(site), text, { site }, site !== null);
  }

  pause({ on }: Args<'pause'>): Promise<Outcome<null>> {
    const { plan } = this.unit;
    return this.plain(
      on ? ask.pause() : ask.run(),
      on ? `Paused ${plan.name}.` : `Ended the pause of ${plan.name}.`,
      { on },
      false,
    );
  }

  master({ state }: Args<'master'>): Promise<Outcome<null>> {
    return this.plain(ask.master(state), `Set ${this.unit.plan.name} ${MASTERS[state]}.`, { state }, false);
  }

  press({ input, as }: Args<'press'>): Promise<Outcome<null>> {
    const name = inputName(this.unit.plan, input);
    const text = { on: `Pressed ${name}.`, off: `Held ${name} off.`, auto: `Let go of ${name}.` }[as];
    return this.plain(ask.press(input, as), text, { input, as });
  }

  /** `byNumber`: speaks of a site or input of the open layout, so the board has to run that. */
  private async plain(
    request: Request<null>,
    text: string,
    data: Record<string, string | number | boolean | null>,
    byNumber = true,
  ): Promise<Outcome<null>> {
    const done = await (byNumber ? askOfLayout : askBoard)(this.unit, request);
    if (!done.ok) return done;
    this.unit.log('control', text, data);
    await this.unit.snapshot();
    return fine(null);
  }
}
