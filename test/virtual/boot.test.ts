import { describe, expect, it } from 'vitest';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import { CHIPS, CPU_HZ } from '../../electron/host/virtual/chips.ts';
import type { Chip } from '../../shared/table/format.ts';
import { BOOT_AT, type Boot, buildLoader, buildProgram } from '../firmware/loaders/build.ts';
import { buildProbe } from './probe.ts';

const MS = CPU_HZ / 1000;
const LAMP = 8;
const WDTCSR = 0x60;
const MCUSR = 0x54;

describe.each<Chip>(['atmega328p', 'atmega2560'])('an %s with a boot section', (chip) => {
  const bitten = buildProgram('bitten', chip);

  function powered(flash: Uint8Array, boot: Boot) {
    const board = new VirtualBoard({ chip, flash, boot });
    const raised: number[] = [];
    board.onPin = (pin, level, cycles) => {
      if (pin === LAMP && level === 1) raised.push(Math.round(cycles / MS));
    };
    board.power(true);
    return { board, raised };
  }

  it('starts in it after power-on and reset, and goes to the program after the wait', () => {
    const sent: number[] = [];
    const { board } = powered(buildProbe(chip), buildLoader('older', chip, { waitMs: 100 }));
    board.onByte = (byte, cycles) => sent.push(byte, Math.round(cycles / MS));
    expect(board.programCounter).toBe(BOOT_AT[chip]);
    board.run(200 * MS);
    board.reset();
    expect(board.programCounter).toBe(BOOT_AT[chip]);
    board.run(200 * MS);
    // The probe sends MCUSR, which this loader has not touched.
    expect(sent).toEqual([0x01, 100, 0x02, 300]);
  });

  it('after a reset by the watchdog, the older loader is reset every 16 ms until the power is cut', () => {
    const { board, raised } = powered(bitten, buildLoader('older', chip, { waitMs: 100 }));
    board.run(2000 * MS);
    // 100 ms of loader; the program lights its lamp and is bitten 256 ms later; never again.
    expect(raised).toEqual([100]);
    expect(board.programCounter).toBeGreaterThanOrEqual(BOOT_AT[chip]);
    board.reset();
    board.run(1000 * MS);
    // A reset pin does clear WDE, as any reset but the watchdog's own.
    expect(raised).toHaveLength(2);
    board.run(1000 * MS);
    board.power(false);
    board.run(10 * MS);
    board.power(true);
    board.run(1000 * MS);
    expect(raised).toHaveLength(3);
  });

  it('after a reset by the watchdog, the newer loader starts the program again and again', () => {
    const { board, raised } = powered(bitten, buildLoader('newer', chip, { waitMs: 100 }));
    board.run(1000 * MS);
    expect(raised).toEqual([0, 256, 512, 768]);
    // The flags are gone from MCUSR, and handed on in r2.
    expect([board.peek(MCUSR), board.peek(2)]).toEqual([0, 0x08]);
  });

  it('after a reset by the pin, the newer loader waits and leaves through the watchdog', () => {
    const { board, raised } = powered(bitten, buildLoader('newer', chip, { waitMs: 100 }));
    board.run(10 * MS);
    board.reset();
    board.run(200 * MS);
    // 100 ms of waiting and 16 ms of watchdog behind the reset at 10 ms.
    expect(raised).toEqual([0, 126]);
  });
});

describe('the watchdog of the virtual board', () => {
  it('holds WDE while WDRF is set, at the shortest time', () => {
    const board = new VirtualBoard({ chip: 'atmega328p', flash: buildProgram('parking', 'atmega328p') });
    board.power(true);
    board.run(MS);
    expect([board.peek(MCUSR), board.peek(WDTCSR)]).toEqual([0x01, 0]);
    board.reset('watchdog');
    board.run(MS);
    expect([board.peek(MCUSR), board.peek(WDTCSR)]).toEqual([0x08, 0x08]);
  });
});

describe.each<Chip>(['atmega328p', 'atmega2560'])('the parking page on an %s', (chip) => {
  const parking = buildProgram('parking', chip);

  it.each(['none', 'older', 'newer', 'newer, watchdog left on'] as const)(
    'drives no pin and is never reset (loader: %s)',
    (loader) => {
      const leaves = loader === 'newer, watchdog left on' ? 4 : 0;
      const kind = loader === 'older' ? 'older' : 'newer';
      const boot = loader === 'none' ? {} : { boot: buildLoader(kind, chip, { waitMs: 40, leaves }) };
      const board = new VirtualBoard({ chip, flash: parking, ...boot });
      const driven: number[] = [];
      board.onPin = (pin) => driven.push(pin);
      board.power(true);
      const parked = () => {
        board.run(100 * MS);
        for (let look = 0; look < 20; look++) {
          board.run(5 * MS + 1);
          expect(board.programCounter, 'in the page').toBeLessThan(6);
        }
      };
      parked();
      board.reset();
      parked();
      expect(driven).toEqual([]);
      expect(board.peek(WDTCSR), 'the watchdog is as the loader left it').toBe(leaves ? 0x08 : 0);
      for (const port of Object.values(CHIPS[chip].ports))
        expect([board.peek(port.DDR), board.peek(port.PORT)]).toEqual([0, 0]);
    },
  );
});
