import { describe, expect, it } from 'vitest';
import { settle } from '../host/fake-clock.ts';
import { connected, PORT, rig } from './rig.ts';
import { TableBoard } from './table-board.ts';

describe('what the guard of a board does', () => {
  it('is written down in words as it happens', async () => {
    const bench = await connected();
    const said = async (word: string, ...fields: (string | number)[]) => {
      const before = bench.logged().length;
      bench.real.line.event(word, ...fields);
      await settle();
      return bench.logged().slice(before);
    };
    expect(await said('fault', 5000, 0, 4)).toEqual(['Market Cross went to its fault aspect: running state damaged.']);
    expect(await said('fault', 15_000, 0, 0)).toEqual(['Market Cross came back from its fault aspect by itself.']);
    expect(await said('guard', 16_000, 0)).toEqual([
      'Town board found its running table damaged and started the table that it keeps.',
    ]);
    expect(await said('guard', 16_000, 1)).toEqual([
      'Town board found its running table damaged, had none kept whole, and went dark: the layout has to be sent again.',
    ]);
    expect(await said('guard', 16_000, 2)).toEqual([
      'Town board found the table that it keeps damaged and kept the running one anew, which was the same.',
    ]);
    expect(await said('guard', 16_000, 3)).toEqual([
      'Town board found the table that it keeps damaged and could not renew it: the running one has to be kept again.',
    ]);
    expect(await said('guard', 16_000, 77)).toEqual([
      'The guard of Town board did something that this version does not know.',
    ]);
  });

  it('is asked for when the board is met, and not of older firmware', async () => {
    const met = async (firmware: string, guard: (string | number)[]) => {
      const bench = { ...rig(), real: new TableBoard() };
      bench.real.firmware = firmware;
      bench.real.script = { guard: () => guard };
      bench.ports.plugged.set(PORT, bench.real);
      expect(await bench.call('connect', { board: 'town', port: PORT })).toMatchObject({ ok: true });
      await settle();
      const asked = bench.real.line.words().includes('guard');
      return [asked, ...bench.logged().filter((text) => text.startsWith('The guard'))];
    };
    expect(await met('1.1.0', [1, 0, 1, '00', 0, 0])).toEqual([false]);
    expect(await met('1.2.0', [0, '-', 0, '00', 0, 0])).toEqual([true]);
    expect(await met('1.2.0', [3, 1, 3, '01', 1, 2])).toEqual([
      true,
      'The guard of Town board had seen: 3 faults, the last one at Chapel Corner: running table damaged; ' +
        'a damaged table was replaced by the kept one; 1 restart by its watchdog since power-on; ' +
        '2 restarts by a supply that had dropped too low, since power-on.',
    ]);
  });
});
