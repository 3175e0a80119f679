/** How long the host waits for each request, from the timings of firmware/PROTOCOL.md, chapter 1, rule 4. */
import type { Patience } from './lane.ts';

/**
 * Added to what the board may take: the line itself (64 + 120 characters, 32 ms), events queued
 * before the answer, the buffers of USB bridges (16 ms each way) and a busy computer.
 */
const MARGIN_MS = 400;
const QUICK_MS = 20;
const TRIES = 5;
/** A lost slow request is found out by asking again; while it is being worked on that does no harm. */
const RESEND_AT_MOST_MS = 1000;

const SLOW_MS: Readonly<Record<string, number>> = {
  begin: 150,
  label: 150,
  part: 100,
  start: 1000,
  sum: 200,
  keep: 10_000,
  back: 10_000,
  erase: 10_000,
};

export function patienceFor(word: string): Patience {
  const budget = SLOW_MS[word] ?? QUICK_MS;
  return {
    resendMs: Math.min(budget + MARGIN_MS, RESEND_AT_MOST_MS),
    giveUpMs: budget + TRIES * MARGIN_MS,
  };
}

/** A board that was reset needs about 1.5 s before it answers, some boot loaders longer. */
export const GREETING: Patience = { resendMs: 300, giveUpMs: 6000 };

/** Pause before a busy board is asked again, ms. */
export const BUSY_WAIT_MS = 200;

/**
 * So long a host keeps still after opening the port of a board that may have an ATmega2560, ms: its usual boot loader
 * waits for about 1 s and stays for several more with each byte that it hears (from memory).
 */
export const LISTEN_FIRST_MS = 2000;
