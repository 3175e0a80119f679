/**
 * Times as people read and type them; set times are written by `timeText` of
 * shared/workbench. Inside the panel all times are whole milliseconds.
 */

/** Times from here on are shown as minutes and seconds, ms. */
const MINUTE = 60_000;

/** A figure and its unit apart, so that the figure can be drawn larger. Minutes need no unit. */
export interface Figure {
  readonly figure: string;
  readonly unit: string;
}

/** What is left of an interval. Rounded up: zero is shown only when it is over. */
export function countdown(ms: number): Figure {
  const tenths = Math.max(0, Math.ceil(ms / 100));
  if (tenths < 600) return { figure: (tenths / 10).toFixed(1), unit: 's' };
  const seconds = Math.ceil(ms / 1000);
  return { figure: `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`, unit: '' };
}

/** The same as spoken, for screen readers: "18.5 seconds", "1 minute 5 seconds". */
export function spokenTime(ms: number): string {
  if (ms < MINUTE) return `${ms / 1000} seconds`;
  const minutes = Math.floor(ms / MINUTE);
  const seconds = (ms - minutes * MINUTE) / 1000;
  const tail = seconds === 0 ? '' : ` ${seconds} seconds`;
  return `${minutes} ${minutes === 1 ? 'minute' : 'minutes'}${tail}`;
}

/** "18", "18.5", "18,5 s", "1:05", "1:05.5" to ms in steps of 10; null for anything else. */
export function parseTime(text: string): number | null {
  const read = readTime(text);
  return 'ms' in read ? read.ms : null;
}

/** The same, with what is wrong in one sentence. */
export function readTime(text: string): { readonly ms: number } | { readonly wrong: string } {
  const clean = text.trim().replace(',', '.');
  const plain = /^(\d+(?:\.\d+)?|\.\d+)\s*(?:s|sec|seconds?)?$/i.exec(clean);
  if (plain) return { ms: toStep(Number(plain[1])) };
  const clock = /^(\d+):([0-5]\d(?:\.\d+)?)$/.exec(clean);
  if (clock) return { ms: toStep(Number(clock[1]) * 60 + Number(clock[2])) };
  return { wrong: whatIsWrong(clean) };
}

const FORMS = 'Write a time such as 18, 18.5 s or 1:05.';

function whatIsWrong(clean: string): string {
  if (clean === '') return `Nothing was written. ${FORMS}`;
  if (/^[-−]/.test(clean)) return `A time is never below zero. ${FORMS}`;
  if (/^\d+:[6-9]\d/.test(clean)) return 'After the colon come seconds, 00 to 59, such as 1:05.';
  if (/^\d+:\d(\.\d*)?$/.test(clean)) return 'After the colon come two figures, such as 1:05.';
  if (/^\d+:\d+:/.test(clean)) return 'Hours are not read. Write minutes and seconds, such as 75:00.';
  if (/^[\d.]+\s*(m|min|minutes?)$/i.test(clean)) return 'Minutes are written with a colon, such as 1:00.';
  if (/^[\d.]+\s*ms$/i.test(clean)) return 'Times are seconds, such as 0.5.';
  return `This is no time. ${FORMS}`;
}

/** The board counts in hundredths of a second (firmware/PROTOCOL.md, time word). */
function toStep(seconds: number): number {
  return Math.round(seconds * 100) * 10;
}

/** How far one press of − or + goes, ms: fine for flashes, whole seconds for greens. */
export function stepFor(ms: number): number {
  if (ms < 2_000) return 50;
  if (ms < 10_000) return 500;
  return 1_000;
}

/**
 * The time after so many steps, ms, on the grid of the step and within the
 * limits. A step down from the edge of a band takes the finer step of the band below.
 */
export function stepped(ms: number, steps: number, limits: { readonly min: number; readonly max: number }): number {
  let value = ms;
  const direction = Math.sign(steps);
  for (let left = Math.abs(steps); left > 0; left--) {
    const step = stepFor(direction < 0 ? value - 1 : value);
    // Off the grid the first step goes to the next mark, not past it.
    value = direction > 0 ? (Math.floor(value / step) + 1) * step : (Math.ceil(value / step) - 1) * step;
  }
  return Math.min(limits.max, Math.max(limits.min, value));
}
