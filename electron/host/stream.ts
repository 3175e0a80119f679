/**
 * What a real board, the virtual board and a test double have in common: bytes
 * go in, bytes come out, and one day it ends.
 */
export interface ByteStream {
  /** Queues bytes for the board. After the end it does nothing. */
  write(bytes: Uint8Array): void;
  onData(listener: (bytes: Uint8Array) => void): void;
  /** Called once, with the cause in plain words. Also when it had ended before. */
  onClose(listener: (cause: string) => void): void;
  close(): Promise<void>;
}

/** Keeps the listeners of a stream and sees that its end is told exactly once. */
export class StreamEnds {
  private readonly dataListeners: ((bytes: Uint8Array) => void)[] = [];
  private readonly closeListeners: ((cause: string) => void)[] = [];
  private cause: string | null = null;

  get ended(): boolean {
    return this.cause !== null;
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.dataListeners.push(listener);
  }

  onClose(listener: (cause: string) => void): void {
    if (this.cause !== null) listener(this.cause);
    else this.closeListeners.push(listener);
  }

  data(bytes: Uint8Array): void {
    if (this.ended) return;
    for (const listener of this.dataListeners) listener(bytes);
  }

  end(cause: string): void {
    if (this.ended) return;
    this.cause = cause;
    for (const listener of this.closeListeners) listener(cause);
  }
}
