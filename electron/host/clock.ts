/** Time as the host sees it, injected so that tests and emulated boards bring their own. */
export interface Clock {
  /** Milliseconds from any start; never goes back. */
  now(): number;
  /** Calls once after so many milliseconds; the result cancels it. */
  setTimer(ms: number, then: () => void): () => void;
}

export const systemClock: Clock = {
  now: () => performance.now(),
  setTimer: (ms, then) => {
    const timer = setTimeout(then, ms);
    return () => clearTimeout(timer);
  },
};
