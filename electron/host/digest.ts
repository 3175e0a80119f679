/** SHA-256, as names of files are made of. */
import { createHash } from 'node:crypto';

/** 64 hexadecimal digits. */
export function digestOf(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}

/** 16 of them, where a person's own things are told apart and nobody would forge one. */
export function shortDigest(text: string): string {
  return digestOf(text).slice(0, 16);
}
