/**
 * What the links of a layout's boards must know of each other: who has which
 * port in hand, which ports came and went, and whose board was met by whom.
 */
import type { Who } from '../../../shared/link/requests.ts';
import type { Clock } from '../clock.ts';
import type { ByteStream } from '../stream.ts';
import { PortWatch } from './port-watch.ts';
import type { SerialPorts } from './ports.ts';

/** A port that was opened by one link and may be another one's. */
export interface OpenedPort {
  readonly port: string;
  readonly stream: ByteStream;
  /** When its opening began, by the host's clock. */
  readonly openedAt: number;
}

/** A link as its neighbours see it. */
export interface Neighbour {
  readonly port: string | null;
  /** Opening, open, or about to be greeted through it. */
  holds(port: string): boolean;
  /** Its board is lost and this is it. */
  misses(who: Who): boolean;
  /** Takes over the stream of its own board; false when it does not want it any more. */
  adopt(opened: OpenedPort): boolean;
  /** The device is gone. */
  portGone(port: string): void;
  /** Ports have come: looks at once. */
  lookSoon(): void;
  /** Lets go of a port that it only tries while it looks for its board. */
  leave(port: string): Promise<void>;
}

export interface NeighboursOptions {
  readonly clock: Clock;
  readonly serial: Pick<SerialPorts, 'present'>;
  /** The set of ports has changed. */
  readonly changed: () => void;
}

export class Neighbours {
  private readonly links = new Set<Neighbour>();
  private readonly reserved = new Map<string, number>();
  private readonly watch: PortWatch | null;

  constructor({ clock, serial, changed }: NeighboursOptions) {
    const { present } = serial;
    this.watch = present
      ? new PortWatch({
          clock,
          present: (watched) => present.call(serial, watched),
          watched: () => [...this.links].flatMap(({ port }) => (port === null ? [] : [port])),
          onGone: (paths) => this.gone(paths),
          onChanged: () => {
            changed();
            for (const link of [...this.links]) link.lookSoon();
          },
        })
      : null;
  }

  /** Watches the ports from now on. */
  start(): void {
    this.watch?.start();
  }

  stop(): void {
    this.watch?.stop();
  }

  join(link: Neighbour): void {
    this.links.add(link);
  }

  part(link: Neighbour): void {
    this.links.delete(link);
  }

  /** No link looks for its board at this port until the result is called. */
  reserve(port: string): () => void {
    this.reserved.set(port, (this.reserved.get(port) ?? 0) + 1);
    let isReserved = true;
    return () => {
      if (!isReserved) return;
      isReserved = false;
      const left = (this.reserved.get(port) ?? 0) - 1;
      if (left > 0) this.reserved.set(port, left);
      else this.reserved.delete(port);
    };
  }

  isHeld(port: string, by: Neighbour): boolean {
    return this.reserved.has(port) || this.others(by).some((link) => link.holds(port));
  }

  appeared(after: number): readonly string[] {
    return this.watch?.appeared(after) ?? [];
  }

  /** Whoever only tries this port leaves it to `to`, who was told to take it. */
  async clear(port: string, to: Neighbour): Promise<void> {
    for (const link of this.others(to)) await link.leave(port);
  }

  /** Gives a board that was met to the link that misses it; false when none does. */
  handOver(who: Who, opened: OpenedPort, from: Neighbour): boolean {
    return this.others(from).some((link) => link.misses(who) && link.adopt(opened));
  }

  private gone(paths: readonly string[]): void {
    for (const path of paths) {
      for (const link of [...this.links]) link.portGone(path);
    }
  }

  private others(than: Neighbour): Neighbour[] {
    return [...this.links].filter((link) => link !== than);
  }
}
