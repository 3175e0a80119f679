import { describe, expect, it } from 'vitest';
import type { Chip } from '../../shared/table/format.ts';
import { BOOT_AT, buildLoader } from './loaders/build.ts';
import { CLOCK_INTERRUPT, GREEN_PIN, Junction } from './loaders/junction.ts';

const CLI = 0x94f8;
const ITSELF = 0xcfff;

const CHIPS: readonly Chip[] = ['atmega328p', 'atmega2560'];
const LOADERS = ['none', 'older', 'newer'] as const;
const cases = CHIPS.flatMap((chip) => LOADERS.map((loader) => [chip, loader] as const));

function running(chip: Chip, loader: (typeof LOADERS)[number]): Junction {
  const junction = new Junction(chip, loader === 'none' ? {} : { boot: buildLoader(loader, chip) });
  junction.board.power(true);
  junction.run(500);
  expect(junction.board.pin(GREEN_PIN)).toBe(1);
  return junction;
}

/** What a loader without traces in MCUSR makes of a power-on. */
const first = { none: 'power 01', older: 'power 01', newer: 'unknown 01' } as const;

describe.each(cases)('an %s that hangs, loader: %s', (chip, loader) => {
  it('starts itself anew when its clock stands still, and is never reset by hardware', () => {
    const junction = running(chip, loader);
    junction.board.poke(CLOCK_INTERRUPT, 0);
    junction.run(1000);
    expect(junction.greetings).toEqual([first[loader], 'watchdog 01']);
    expect(junction.board.watchdogResets).toBe(0);
    expect(junction.board.pin(GREEN_PIN)).toBe(1);
    // At work again: between 0.25 s of hanging and all of the second.
    expect(junction.clock).toBeGreaterThan(700);
    expect(junction.clock).toBeLessThan(760);
  });

  it('starts itself anew from an endless loop, again and again', () => {
    const junction = running(chip, loader);
    const { board } = junction;
    for (let time = 1; time <= 3; time++) {
      // The board sleeps; the instruction behind the sleep becomes a jump to itself.
      const at = board.programCounter;
      const word = board.peekFlash(at);
      board.pokeFlash(at, ITSELF);
      junction.run(200);
      expect(board.programCounter).toBe(at);
      board.runToAddress(0, 100 * 16_000);
      board.pokeFlash(at, word);
      junction.run(200);
      expect(junction.greetings).toEqual([first[loader], ...Array<string>(time).fill('watchdog 01')]);
      expect(board.pin(GREEN_PIN)).toBe(1);
    }
    expect(board.watchdogResets).toBe(0);
  });

  it('with interrupts off is reset by hardware: behind the older loader it stays dark until the power is cut', () => {
    const junction = running(chip, loader);
    const { board } = junction;
    const at = board.programCounter;
    // `sleep_disable` and `sei` become `cli` and a jump to itself, until the reset.
    board.pokeFlash(at, CLI);
    board.pokeFlash(at + 2, ITSELF);
    junction.run(2000);
    expect(board.watchdogResets).toBeGreaterThan(0);
    if (loader === 'older') {
      expect(junction.greetings).toEqual(['power 01']);
      expect(board.pin(GREEN_PIN)).toBe('z');
      expect(board.programCounter).toBeGreaterThanOrEqual(BOOT_AT[chip]);
      board.power(false);
      board.power(true);
      junction.run(500);
      expect(junction.greetings).toEqual(['power 01', 'power 01']);
    } else {
      // The newer loader has cleared the flag; that memory was not lost is all that is known.
      expect(junction.greetings).toEqual([first[loader], loader === 'newer' ? 'reset 01' : 'watchdog 01']);
    }
    expect(board.pin(GREEN_PIN)).toBe(1);
  });
});
