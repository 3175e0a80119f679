/** Which pins a lamp takes first: plain ones, so that those that can do more are left for what needs them. */
import type { Board } from '../outputs.ts';
import { BOARD_PINS } from '../templates/pins.ts';
import { OWN_LED } from './numbers.ts';

/** Pins of SPI and I2C, and of the further serial lines of the larger chip, by the number of the pin. */
const BUSES: Readonly<Record<Board['chip'], readonly number[]>> = {
  // SS, MOSI, MISO by the alternate functions of port B (Atmel 8271, from memory); SCK is D13, SDA and SCL are A4 and A5.
  atmega328p: [10, 11, 12],
  // Alternate functions of ports B, D, H and J (Atmel 2549, from memory). Where they stand on boards: common practice.
  atmega2560: [14, 15, 16, 17, 18, 19, 20, 21, 50, 51, 52, 53],
};

/** 0: nothing special; 1: a bus; 2: measures voltages; 3: measures and is a bus; 4: the board's own LED. Bits are 0. */
export function rankOf(chip: Board['chip'], output: number): number {
  const { analogue, last } = BOARD_PINS[chip];
  if (output > last) return 0;
  if (output === OWN_LED) return 4;
  if (BUSES[chip].includes(output)) return 1;
  if (output < analogue) return 0;
  return chip === 'atmega328p' && output >= analogue + 4 ? 3 : 2;
}
