/** Chips by the signature that their boot loaders tell. */
import type { Silicon } from './types.ts';

/**
 * Signatures and greatest total currents: Atmel 8271 (ATmega328P: signature 1E 95 0F; 29.1: 200 mA through VCC and
 * GND), DS40001906C (ATmega328PB: signature 1E 95 16; 100 mA in all), Atmel 2549 (ATmega2560: signature 1E 98 01;
 * section 31: 200 mA).
 */
export const SILICON: readonly Silicon[] = [
  { name: 'ATmega328P', signature: '1E950F', chip: 'atmega328p', totalMilliamps: 200 },
  { name: 'ATmega328PB', signature: '1E9516', chip: 'atmega328p', totalMilliamps: 100 },
  { name: 'ATmega2560', signature: '1E9801', chip: 'atmega2560', totalMilliamps: 200 },
];

/** `signature`: six upper-case hexadecimal digits. Null for a chip that we have no image for. */
export function siliconOf(signature: string): Silicon | null {
  return SILICON.find((it) => it.signature === signature) ?? null;
}
