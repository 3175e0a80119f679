/** Words around firmware: stages, versions, chips. */
import type { BoardState, TaskStage } from '../../shared/workbench/contract.ts';

/** What is going on, large enough for the person who looks up from the layout. */
export function stageWords(stage: TaskStage): string {
  return {
    read: 'Reading what it keeps',
    reset: 'Waking its boot loader',
    press: 'Press the reset button on the board now',
    write: 'Writing the firmware',
    verify: 'Reading back what was written',
    greet: 'Waiting for its greeting',
    restore: 'Putting back what it kept',
  }[stage];
}

/** The firmware of a board that has been met, against the one of this app. */
export function firmwareWords({ who, firmware }: BoardState): string {
  const { match, shipped } = firmware;
  const version = who?.firmware ?? 'not known';
  switch (match) {
    case 'same':
      return `${version}, the one of this app`;
    case 'older':
      return `${version}, older than the ${shipped ?? 'one'} of this app`;
    case 'newer':
      return `${version}, newer than the ${shipped ?? 'one'} of this app`;
    case 'none':
      return 'none of ours';
    case 'unknown':
      return version;
  }
}

/** `Firmware 1.0.0; 1.1.0 comes with this app.` */
export function updateWords({ who, firmware }: BoardState): string {
  const has = who ? `Firmware ${who.firmware}` : 'Older firmware';
  return `${has}; ${firmware.shipped ?? 'a newer one'} comes with this app.`;
}

const CHIPS: Readonly<Record<string, string>> = { atmega328p: 'ATmega328P', atmega2560: 'ATmega2560' };

/** Most current through the supply pins of the chips that layouts are planned for, mA: Atmel 8271, 29.1; 2549, 31. */
const USUAL_MILLIAMPS = 200;

export interface ChipWords {
  readonly name: string;
  /** What it carries in all; null while the chip is known by its firmware only. */
  readonly current: string | null;
  /** It carries less than the chip that a layout is planned for. */
  readonly isLess: boolean;
}

export function chipWords({ who, silicon }: BoardState): ChipWords {
  const planned = CHIPS[who?.chip ?? ''] ?? who?.chip ?? 'not known';
  if (!silicon) return { name: planned, current: null, isLess: false };
  const { name, totalMilliamps } = silicon;
  const isLess = totalMilliamps < USUAL_MILLIAMPS;
  const share = 2 * totalMilliamps === USUAL_MILLIAMPS ? 'half of' : 'less than';
  // DS40001906C: the ATmega328PB carries 100 mA in all.
  return { name, current: `${totalMilliamps} mA in all${isLess ? `, ${share} an ATmega328P` : ''}`, isLess };
}
