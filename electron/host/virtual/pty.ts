/**
 * A pseudo-terminal in front of a byte stream, so that any program that opens a
 * serial device reaches the virtual board. Needs socat; Linux and macOS.
 */
import { spawn } from 'node:child_process';
import type { ByteStream } from '../stream.ts';

export interface PtyFront {
  /** Path of the device to open. */
  readonly path: string;
  close(): Promise<void>;
}

export type PtyResult = { readonly ok: true; readonly pty: PtyFront } | { readonly ok: false; readonly error: string };

/** Opens a pseudo-terminal and copies bytes both ways until either side closes. */
export function openPty(stream: ByteStream): Promise<PtyResult> {
  const child = spawn('socat', ['-d', '-d', 'pty,raw,echo=0', '-'], { stdio: ['pipe', 'pipe', 'pipe'] });
  const gone = new Promise<void>((resolve) => child.once('close', () => resolve()));
  const close = async (): Promise<void> => {
    child.kill();
    await gone;
  };
  stream.onData((bytes) => {
    if (child.stdin.writable) child.stdin.write(bytes);
  });
  child.stdin.on('error', () => {});
  child.stdout.on('data', (bytes: Buffer) => stream.write(new Uint8Array(bytes)));
  stream.onClose(() => child.kill());
  return new Promise((resolve) => {
    let said = '';
    child.once('error', (error) => resolve({ ok: false, error: `socat could not be started: ${error.message}` }));
    child.once('close', () => resolve({ ok: false, error: `socat ended: ${said.trim()}` }));
    child.stderr.on('data', (text: Buffer) => {
      said += text.toString();
      const path = /PTY is (\S+)/.exec(said)?.[1];
      // The second line says that data is copied: only then is the device ready.
      if (path && said.includes('starting data transfer loop')) resolve({ ok: true, pty: { path, close } });
    });
  });
}
