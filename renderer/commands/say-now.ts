import type { Model } from '../model/model.ts';
import { type Running, runningOf } from '../model/running.ts';
import { spokenTime } from '../model/time.ts';
import { command } from './command.ts';
import { notRunning } from './why.ts';

/** For those who listen: told once when asked, as a time that is told all the while drowns everything else. */
export const sayNow = command({
  id: 'say-now',
  label: 'Say what runs',
  hint: 'The running interval of the site at hand and the time left, in one line that screen readers read out.',
  shortcut: ';',
  menu: 'Site',
  words: ['screen reader', 'announce', 'read out', 'tell', 'speak', 'what is lit'],
  when: (model) => sentence(model) !== null,
  why: (model) => notRunning(model) ?? 'The site at hand does not run.',
  run: (model, surface) => {
    const text = sentence(model);
    if (text !== null) surface.told.value = { text, after: model.log.peek().at(-1)?.number ?? 0 };
  },
});

function sentence(model: Model): string | null {
  const site = model.siteAtHand.value;
  if (!site) return null;
  const running = runningOf(site, model.board(site.board), model.wall.peek());
  if (running.is === 'unknown') return null;
  return `${site.names.name}: ${running.label}${timeOf(running)}.`;
}

/** Whole seconds: nobody listens to tenths. */
function timeOf(running: Exclude<Running, { is: 'unknown' }>): string {
  const seconds = (ms: number): string => spokenTime(Math.ceil(ms / 1000) * 1000);
  switch (running.is) {
    case 'timed':
      return `, ${seconds(running.left)} left`;
    case 'open':
      return running.left > 0 ? `, at least ${seconds(running.left)} left` : `, for ${seconds(running.elapsed)}`;
    case 'flashing':
      return `, ${Math.round(running.perMinute)} flashes a minute`;
    case 'fault':
      return '';
  }
}
