import { describe, expect, it } from 'vitest';
import { LiveView, litDigits, type SiteReport } from '../../electron/host/service/live-view.ts';

const snap = (ms: number, lit: boolean[] = []) =>
  ({ ms, lit, demands: [], master: 'run', flags: new Set(['table' as const]) }) as const;
const site = (row: number, elapsed: number, from: number, to = from + 20): SiteReport => ({
  site: { row, elapsed, flags: new Set(), fault: 'none' },
  from,
  to,
});

describe('what a board shows, from events and snapshots', () => {
  it('takes the begin of a row from a snapshot, to within the time of the question', () => {
    const view = new LiveView();
    view.merge({ snap: snap(10_000), sites: [site(3, 4000, 10_000)] });
    expect(view.state('town').rows).toEqual([{ row: 3, began: 6010 }]);
  });

  it('keeps the exact moment of an event that the snapshot agrees with', () => {
    const view = new LiveView();
    view.rowEntered(6004, 0, 3);
    view.merge({ snap: snap(10_000), sites: [site(3, 4000, 10_000)] });
    expect(view.state('town').rows).toEqual([{ row: 3, began: 6004 }]);
  });

  it('believes an event that came after the answer', () => {
    const view = new LiveView();
    view.rowEntered(6004, 0, 3);
    view.rowEntered(10_015, 0, 4);
    view.merge({ snap: snap(10_000), sites: [site(3, 4000, 10_000)] });
    expect(view.state('town').rows).toEqual([{ row: 4, began: 10_015 }]);
  });

  it('believes the snapshot where events were lost', () => {
    const view = new LiveView();
    view.rowEntered(6004, 0, 3);
    view.merge({ snap: snap(20_000), sites: [site(5, 1000, 20_000)] });
    expect(view.state('town').rows).toEqual([{ row: 5, began: 19_010 }]);
  });

  it('moves the begin of a held row, and of one that waits for its start', () => {
    const view = new LiveView();
    view.rowEntered(6004, 0, 3);
    view.merge({ snap: snap(60_000), sites: [site(3, 4000, 60_000)] });
    expect(view.state('town').rows[0]).toEqual({ row: 3, began: 56_010 });
    view.rowEntered(70_000, 0, 0);
    view.merge({ snap: snap(70_010), sites: [site(0, -5000, 70_010)] });
    expect(view.state('town').rows[0]).toEqual({ row: 0, began: 75_020 });
  });

  it('takes lamps from whichever is newer', () => {
    const view = new LiveView();
    view.lampsChanged(5000, [true, false, false, false]);
    view.merge({ snap: snap(4990, [false, true, false, false]), sites: [] });
    expect(view.state('town').lit).toBe('1');
    view.merge({ snap: snap(5010, [false, true, false, false]), sites: [] });
    expect(view.state('town').lit).toBe('2');
  });

  it('goes on across the wrap of the board time', () => {
    const view = new LiveView();
    view.rowEntered(4_294_967_290, 0, 1);
    view.rowEntered(5, 0, 2);
    view.merge({ snap: snap(8), sites: [site(1, 100, 4_294_967_292, 8)] });
    expect(view.state('town')).toMatchObject({ ms: 8, rows: [{ row: 2, began: 5 }] });
    view.merge({ snap: snap(20), sites: [site(2, 40, 20, 40)] });
    expect(view.state('town').rows).toEqual([{ row: 2, began: 4_294_967_286 }]);
  });

  it.each([
    [[], '0'],
    [[true], '1'],
    [[false, false, true, true, false, true], '2C'],
    [Array.from({ length: 14 }, () => true), '3FFF'],
  ])('writes lamps %j as %s', (lit, digits) => {
    expect(litDigits(lit)).toBe(digits);
  });
});
