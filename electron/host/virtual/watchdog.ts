/**
 * The watchdog by the ATmega328P data sheet (8271, 11.9.1 and 11.9.2), where avr8js leaves out what a restart
 * depends on: WDRF in MCUSR holds WDE set, so after a reset by the watchdog it runs on, at its shortest time of
 * about 16 ms, until the program clears WDRF and then WDE; and reset flags can be cleared by writing, never set.
 */
import { AVRClock, AVRWatchdog, type CPU, type WatchdogConfig } from 'avr8js';
import { CPU_HZ } from './chips.ts';

const WDRF = 0x08;
const WDCE = 0x10;
const WDE = 0x08;

export function addWatchdog(cpu: CPU, config: WatchdogConfig, afterWatchdogReset: boolean): void {
  const { MCUSR, WDTCSR } = config;
  new AVRWatchdog(cpu, config, new AVRClock(cpu, CPU_HZ));
  const write = cpu.writeHooks[WDTCSR];
  cpu.writeHooks[WDTCSR] = (value, before, address, mask) => {
    const held = (cpu.data[MCUSR] ?? 0) & WDRF && !(value & WDE) ? (value & ~WDCE) | WDE : value;
    return write?.(held, before, address, mask) ?? false;
  };
  cpu.writeHooks[MCUSR] = (value, before) => {
    cpu.data[MCUSR] = before & value;
    return true;
  };
  if (!afterWatchdogReset) return;
  cpu.writeData(WDTCSR, WDCE | WDE);
  cpu.writeData(WDTCSR, WDE);
}
