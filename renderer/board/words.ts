/** State of a board in a few plain words. */
import type { BoardState, TableMatch } from '../../shared/workbench/contract.ts';
import { percentOf } from '../model/firmware.ts';
import { stageWords } from '../writing/words.ts';

/** One line: how it is reached, what it runs, whether that is kept. */
export function boardWords(state: BoardState): string {
  if (state.task) return taskWords(state.task);
  switch (state.link) {
    case 'off':
      return 'not connected';
    case 'opening':
    case 'greeting':
      return 'waiting for its greeting';
    case 'lost':
      if (state.powered === false) return 'switched off';
      return state.virtual ? 'lost' : 'lost, looking for it';
    case 'ready':
      if (state.quiet) return 'not answering';
      if (state.checking) return 'in a lamp check';
      return state.running === 'unknown' ? 'connected' : `runs ${tableWords(state.running)}${keptWords(state)}`;
  }
}

function taskWords({ name, stage, ...measure }: NonNullable<BoardState['task']>): string {
  // While firmware is written the stage says more than the name.
  if (stage) {
    const percent = percentOf(measure);
    return `${stageWords(stage).toLowerCase()}${percent === null ? '' : `, ${percent} %`}`;
  }
  return {
    send: 'sending',
    keep: 'keeping',
    putBack: 'putting back',
    readBack: 'reading what it runs',
    firmware: 'writing its firmware',
    replace: 'taking the place of the old board',
  }[name];
}

/** What a table is, after "runs" or "starts with". */
export function tableWords(match: TableMatch): string {
  switch (match) {
    case 'same':
      return 'this layout';
    case 'times':
      return 'this layout, other times';
    case 'other':
      return 'another layout';
    case 'none':
      return 'nothing';
    case 'unknown':
      return 'not known';
  }
}

function keptWords({ unkept, running }: BoardState): string {
  if (running === 'none' || running === 'unknown') return '';
  return unkept ? ', not kept' : ', kept';
}

export function causeWords(cause: string): string {
  const words: Readonly<Record<string, string>> = {
    power: 'power came on',
    reset: 'reset',
    brownout: 'supply was too low',
    watchdog: 'restarted itself',
  };
  return words[cause] ?? 'not known';
}
