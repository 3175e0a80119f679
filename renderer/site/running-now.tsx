import { useComputed } from '@preact/signals';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { runningOf } from '../model/running.ts';
import { countdown } from '../model/time.ts';

/** The running interval of a site and what is left of it, in large figures. */
export function RunningNow({ site }: { readonly site: OpenSite }) {
  const { model } = usePanel();
  const board = model.board(site.board);
  const now = useComputed(() => runningOf(site, board, model.wall.value));
  const label = useComputed(() => {
    const running = now.value;
    return running.is === 'unknown' ? 'Not running' : running.label;
  });
  const text = useComputed(() => {
    const running = now.value;
    switch (running.is) {
      case 'timed':
        return countdown(running.left);
      case 'open':
        return running.left > 0 ? countdown(running.left) : countdown(running.elapsed);
      case 'flashing':
        return { figure: String(Math.round(running.perMinute)), unit: 'a minute' };
      default:
        return { figure: '–', unit: '' };
    }
  });
  // An interval without an end of its own counts up once its least time is over.
  const note = useComputed(() => {
    const running = now.value;
    if (board.state.value.held[site.number]) return 'held';
    if (board.state.value.paused) return 'paused';
    if (running.is !== 'open') return '';
    return running.left > 0 ? 'at least' : 'waiting for';
  });
  const figure = useComputed(() => text.value.figure);
  const unit = useComputed(() => text.value.unit);
  return (
    <div class="running-now" data-site={site.id}>
      <span class="running-label">{label}</span>
      <span class="running-figure" role="timer" aria-label={`${site.names.name}, time`}>
        <span class="running-note">{note}</span>
        <span class="figure-large">{figure}</span>
        <span class="figure-unit">{unit}</span>
      </span>
    </div>
  );
}
