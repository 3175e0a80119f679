/**
 * The EEPROM's registers. A write goes on through a reset, as long as the supply suffices (AVR data sheets,
 * "Preventing EEPROM Corruption", from memory), and while EEPE tells of it the EEPROM can neither be read nor
 * written.
 */
import { AVREEPROM, type AVREEPROMConfig, type CPU } from 'avr8js';
import type { Eeprom } from './eeprom.ts';

const EERE = 0x01;
const EEPE = 0x02;
const EEMPE = 0x04;
const ERASE_ONLY = 0x10;
const WRITE_ONLY = 0x20;

export function addEepromPort(cpu: CPU, eeprom: Eeprom, config: AVREEPROMConfig): void {
  const { EECR } = config;
  new AVREEPROM(cpu, eeprom, config);
  const write = cpu.writeHooks[EECR];
  cpu.writeHooks[EECR] = (value, before, address, mask) => {
    const busy = cpu.cycles < eeprom.busyUntil;
    if (busy && value & (EERE | EEPE | EEMPE)) return true;
    const done = write?.(value, before, address, mask) ?? false;
    if (busy) cpu.data[EECR] = (cpu.data[EECR] ?? 0) | EEPE;
    else if ((cpu.data[EECR] ?? 0) & EEPE) {
      const erases = value & WRITE_ONLY ? 0 : config.eraseCycles;
      eeprom.busyUntil = cpu.cycles + erases + (value & ERASE_ONLY ? 0 : config.writeCycles);
    }
    return done;
  };
  const left = eeprom.busyUntil - cpu.cycles;
  if (left <= 0) return;
  cpu.data[EECR] = EEPE;
  cpu.addClockEvent(() => {
    cpu.data[EECR] = (cpu.data[EECR] ?? 0) & ~EEPE;
  }, left);
}
