/** When firmware can be written to a board of the layout, at which port, and what to call it. */
import type { BoardState, PortInfo } from '../../shared/workbench/contract.ts';

/** After these the port may well lead to a board that wants our firmware, or wants it once more. */
const WANTING: ReadonlySet<string> = new Set([
  'noAnswer',
  'foreignFirmware',
  'protocolOld',
  'noLoader',
  'firmwareCancelled',
  'firmwareEmptied',
  'firmwareBroken',
  'firmwareNotBegun',
  'firmwareDiffers',
  'firmwareMissing',
]);

/** `put`: there is none of ours; `update`: there is an older one. */
export interface FirmwareOffer {
  readonly port: string;
  readonly kind: 'put' | 'update';
}

/** What can be offered for the port that a board was tried at last; null when there is nothing to write. */
export function firmwareOffer(state: BoardState): FirmwareOffer | null {
  const { port, virtual, link, problem, task, firmware } = state;
  if (port === null || virtual || port.startsWith('virtual') || task !== null) return null;
  if (link === 'opening' || link === 'greeting') return null;
  const isOld = firmware.match === 'older' || problem?.code === 'protocolOld';
  if (link === 'ready') return isOld ? { port, kind: 'update' } : null;
  if (problem === null || !WANTING.has(problem.code)) return null;
  return { port, kind: isOld ? 'update' : 'put' };
}

/**
 * Whether the board at a port can take the place of this one: this one has been there and does not answer, and the port
 * is real and nobody else's. A new board in the old socket often comes up under the old name, so its own port counts,
 * too. The first board of all replaces nothing: it is connected.
 */
export function canReplace(state: BoardState, port: PortInfo): boolean {
  const isAway = state.link === 'lost' || (state.link === 'off' && state.copiedAt !== null);
  const isFree = port.board === null || port.board === state.board;
  return isAway && state.task === null && !port.virtual && isFree;
}

/** Percent of a stage, whole; null for a stage without a measure. */
export function percentOf({ done, total }: { readonly done: number; readonly total: number }): number | null {
  return total > 0 ? Math.floor((100 * Math.min(done, total)) / total) : null;
}
