/** What a board tells of its own accord, and what the host makes of it. */
import type { BoardEvent } from '../../../shared/link/events.ts';
import { ask, type Who } from '../../../shared/link/requests.ts';
import { FAULTS } from '../../../shared/link/vocabulary.ts';
import type { BoardSession } from '../session.ts';
import type { BoardUnit } from './board-unit.ts';
import { backText, deedText, guardText } from './guard-words.ts';
import { restartedText, siteName } from './sentences.ts';
import { knowsNewWords } from './shipped.ts';

export class BoardEvents {
  private readonly unit: BoardUnit;

  constructor(unit: BoardUnit) {
    this.unit = unit;
  }

  hear(session: BoardSession, event: BoardEvent): void {
    const { view, hooks, plan } = this.unit;
    const board = plan.id;
    switch (event.word) {
      case 'lamps':
        hooks.tell('lamps', { board, ms: event.ms, lit: view.lampsChanged(event.ms, event.lit) });
        break;
      case 'row':
        view.rowEntered(event.ms, event.site, event.row);
        hooks.tell('row', { board, ms: event.ms, site: event.site, row: event.row });
        this.unit.onRow(event.site, event.row);
        break;
      case 'demand':
        view.notice(event.ms);
        hooks.tell('demand', { board, ms: event.ms, input: event.input });
        break;
      case 'fault':
        view.notice(event.ms);
        if (event.fault === 'none') this.cameBack(event.site);
        else this.faulted(event.site, faultCode(event.fault));
        break;
      case 'gap':
        void this.unit.snapshot();
        break;
      case 'alone':
        void this.alone(session);
        break;
      case 'guard':
        void this.guarded(session, event.deed);
        break;
      case 'hello':
        void this.restarted(session, event.cause);
    }
  }

  private faulted(site: number, code: number): void {
    const { unit } = this;
    const reason = FAULTS.find((fault) => fault.code === code)?.reason ?? `fault ${code}`;
    unit.log('fault', `${siteName(unit.plan, site)} went to its fault aspect: ${reason}.`, { site, code });
    void unit.snapshot();
  }

  private cameBack(site: number): void {
    const { unit } = this;
    unit.log('fault', backText(unit.plan, site), { site, code: 0 });
    void unit.snapshot();
  }

  /** A table that has taken the place of another is read back, as after a start. */
  private async guarded(session: BoardSession, deed: string): Promise<void> {
    const { unit } = this;
    unit.log('fault', deedText(unit.plan, deed, !unit.known.flags.has('unkept')), { deed });
    if (deed === 'reloaded' || deed === 'stopped') unit.checkBroken();
    await unit.readAll(session);
  }

  /** The board was met: what its guard has seen while nobody was there. */
  async met(session: BoardSession, who: Who): Promise<void> {
    if (!knowsNewWords(who)) return;
    const seen = await session.request(ask.guard());
    const text = seen.ok ? guardText(this.unit.plan, seen.value) : null;
    if (text !== null && session === this.unit.session) this.unit.log('fault', text);
  }

  /** The board heard nothing for too long: everything that the host had laid upon it is over, events too. */
  private async alone(session: BoardSession): Promise<void> {
    const { unit } = this;
    const lasting = unit.known.hostEffects(unit.plan);
    if (lasting) unit.log('control', `${lasting} ended: ${unit.plan.name} had heard nothing from here for 5 seconds.`);
    unit.checkBroken();
    await session.request(ask.tell(true));
    await unit.snapshot();
  }

  private async restarted(session: BoardSession, cause: string): Promise<void> {
    const { unit } = this;
    const lasting = unit.known.hostEffects(unit.plan);
    unit.view.clear();
    unit.checkBroken();
    unit.log('reset', `${restartedText(unit.plan, cause)}${lasting ? ` ${lasting} ended with it.` : ''}`, { cause });
    await unit.readAll(session);
    unit.sayIfDamaged();
  }
}

export function faultCode(key: string): number {
  // A fault of a newer firmware is a fault all the same.
  return FAULTS.find((fault) => fault.key === key)?.code ?? 255;
}
