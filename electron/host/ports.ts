/** Serial ports of this computer: which there are, which are likely boards, opening one. */
import { SerialPort } from 'serialport';
import { type ListedPort, lookOf } from './serial/bridges.ts';

export { type Account, explainOpening, type OpenError, openErrorKind } from './serial/errors.ts';
export { type OpenResult, openPort } from './serial/stream.ts';

/** Name that stands for the virtual board wherever a port is asked for. */
export const VIRTUAL_PORT = 'virtual';

export interface FoundPort {
  readonly path: string;
  /** For people: what kind of USB chip is there. */
  readonly label: string;
  /** A USB chip of the kinds that boards carry. */
  readonly likely: boolean;
  readonly virtual: boolean;
}

/** Likely boards first, then the others, each by name; the virtual board last. */
export function orderPorts(listed: readonly ListedPort[]): FoundPort[] {
  const found = listed.map((port): FoundPort => ({ path: port.path, ...lookOf(port), virtual: false }));
  found.sort((a, b) => Number(b.likely) - Number(a.likely) || a.path.localeCompare(b.path, 'en', { numeric: true }));
  return [...found, { path: VIRTUAL_PORT, label: 'virtual board', likely: false, virtual: true }];
}

export async function listPorts(): Promise<FoundPort[]> {
  try {
    return orderPorts(await SerialPort.list());
  } catch {
    // A system without any serial driver refuses to list; there is still the virtual board.
    return orderPorts([]);
  }
}
