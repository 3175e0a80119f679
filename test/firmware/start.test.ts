import { describe, expect, it } from 'vitest';
import type { Chip } from '../../shared/table/format.ts';
import { buildLoader, LEAVES } from './loaders/build.ts';
import { CLOCK_INTERRUPT, GREEN_PIN, Junction, MS } from './loaders/junction.ts';

const WDTCSR = 0x60;
const EECR = 0x3f;
const EEPE = 0x02;
const OWN_LED = 13;
/** Registers that take pins or interrupt: TCCR1A, TIMSK1, SPCR, TWCR, at the same place on both chips. */
const OTHERS = [0x80, 0x6f, 0x4c, 0xbc] as const;

describe.each<Chip>(['atmega328p', 'atmega2560'])('an %s behind the newer loader', (chip) => {
  it('knows a reset from a power cut by its memory, though the flags are gone', () => {
    const junction = new Junction(chip, { boot: buildLoader('newer', chip) });
    const { board } = junction;
    board.power(true);
    junction.run(300);
    board.reset();
    junction.run(300);
    board.power(false);
    junction.run(100);
    board.power(true);
    junction.run(300);
    expect(junction.greetings).toEqual(['unknown 01', 'reset 01', 'unknown 01']);
  });

  it('sweeps its lamps at power-on and not at each opening of the port', () => {
    const junction = new Junction(chip, { boot: buildLoader('newer', chip, { waitMs: 20 }), sweep: 100 });
    const { board } = junction;
    const lit: number[] = [];
    board.onPin = (pin, level, cycles) => {
      if (pin === GREEN_PIN && level === 1) lit.push(Math.round(cycles / MS / 100) * 100);
    };
    board.power(true);
    junction.run(1000);
    // Third of six lamps, then its turn in the table.
    expect(lit).toEqual([200, 600]);
    board.reset();
    junction.run(1000);
    expect(lit).toEqual([200, 600, 1000]);
  });

  it('is not fooled by noise in memory', () => {
    const junction = new Junction(chip, { boot: buildLoader('newer', chip) });
    const { board } = junction;
    for (let time = 0; time < 100; time++) {
      board.power(true);
      junction.run(20);
      board.power(false);
    }
    expect(new Set(junction.greetings)).toEqual(new Set(['unknown 01']));
    expect(junction.greetings).toHaveLength(100);
  });

  it('is not fooled by a mark with a single bit turned', () => {
    const junction = new Junction(chip, { boot: buildLoader('newer', chip, { waitMs: 1 }) });
    const { board } = junction;
    board.power(true);
    junction.run(20);
    const mark = junction.address('reset_mark');
    for (let bit = 0; bit < 64; bit++) {
      const at = mark + (bit >> 3);
      board.poke(at, board.peek(at) ^ (1 << (bit & 7)));
      board.reset();
      junction.run(40);
    }
    board.reset();
    junction.run(40);
    expect(junction.greetings).toEqual(['unknown 01', ...Array<string>(64).fill('unknown 01'), 'reset 01']);
  });

  const all = Object.values(LEAVES).reduce((sum, bit) => sum | bit, 0);
  it.each([...Object.entries(LEAVES), ['all of it', all] as const])(
    'starts properly when the loader leaves its %s on',
    (_, leaves) => {
      const junction = new Junction(chip, { boot: buildLoader('newer', chip, { leaves }) });
      const { board } = junction;
      board.power(true);
      junction.run(1000);
      expect(junction.greetings).toEqual(['unknown 01']);
      expect(board.pin(GREEN_PIN)).toBe(1);
      expect(board.pin(OWN_LED)).toBe('z');
      expect(OTHERS.map((register) => board.peek(register))).toEqual([0, 0, 0, 0]);
      expect(board.watchdogResets).toBe(0);
      // A thousand ticks, less the few ms of starting.
      expect(junction.clock).toBeGreaterThan(980);
      expect(junction.clock).toBeLessThanOrEqual(1000);
      expect(junction.ask('who')).toMatch(/^ok amberwick 1 \S+ 1 \S+ 00C0FFEE \w{4} 456C6D20526F6164$/);
    },
  );

  it('turns a watchdog that was left on off within 4 microseconds', () => {
    const junction = new Junction(chip, { boot: buildLoader('newer', chip, { leaves: LEAVES.watchdog }) });
    const { board } = junction;
    board.power(true);
    board.runToAddress(0, 20 * MS);
    expect(board.peek(WDTCSR)).toBe(0x08);
    const from = board.cycles;
    while (board.peek(WDTCSR) !== 0) board.run(1);
    expect(board.cycles - from).toBeLessThan(64);
  });
});

describe.each<Chip>(['atmega328p', 'atmega2560'])('a start by software on an %s', (chip) => {
  it('waits for an EEPROM write that is under way, and finds the table', () => {
    const junction = new Junction(chip);
    const { board } = junction;
    board.power(true);
    junction.run(300);
    // The clock stands still; 240 ms later a label is being written, and every byte received wakes the board to
    // write on. So a write is under way when the watchdog bites.
    board.poke(CLOCK_INTERRUPT, 0);
    junction.run(240);
    junction.send('label', ['12345678', '4F616B']);
    let writing = false;
    for (const end = board.cycles + 40 * MS; board.cycles < end && board.programCounter !== 0; board.run(1)) {
      if (board.bytesOnTheWay === 0) board.write(Uint8Array.of(0x0a));
      writing = (board.peek(EECR) & EEPE) !== 0;
    }
    expect([board.programCounter, writing]).toEqual([0, true]);
    junction.run(300);
    expect(junction.greetings.at(-1)).toBe('watchdog 81');
    expect(board.pin(GREEN_PIN)).toBe(1);
  });

  it('ends a line that it has cut, so that its greeting is heard', () => {
    const junction = new Junction(chip);
    const { board } = junction;
    board.power(true);
    junction.run(300);
    for (let shift = 0; shift < 5; shift++) {
      junction.send('caps');
      while (board.bytesOnTheWay > 0) junction.run(1);
      // The answer takes 7 ms to send.
      junction.run(1 + shift);
      board.reset();
      junction.run(100);
      expect(junction.greetings).toHaveLength(2 + shift);
      expect(junction.dropped()).toBe(1 + shift);
    }
  });
});
