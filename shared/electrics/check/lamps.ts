/** What is wrong with the electrics of single lamps. */
import type { Finding } from '../../findings/finding.ts';
import { error, warning } from '../../findings/make.ts';
import { FIRST_BIT } from '../../layout/wiring/numbers.ts';
import { branchesOf, headroom, LEAST_HEADROOM } from '../lamp-circuit.ts';
import type { Load } from '../model.ts';
import { branchFigures, RATINGS } from '../resistors.ts';
import { milliampsText, voltsText } from '../words.ts';

/** A resistor that lets this much more through than wanted is worth a word; common practice, no source. */
const TOO_MUCH = 1.5;

/** `boardVolts`: the board's own line, V. */
export function checkLamp(load: Load, boardVolts: number): Finding[] {
  return [...checkResistor(load), ...checkFeed(load, boardVolts), ...checkDriver(load)];
}

/** "Market Cross, Fore Street, red on D2". */
export function nameOf(load: Load): string {
  const site = load.site === null ? '' : `${load.siteName}, `;
  return `${site}${load.label}${load.colour === '' ? '' : `, ${load.colour}`} on ${load.outputName}`;
}

function checkResistor(load: Load): Finding[] {
  const { circuit, path } = load;
  if (circuit.source !== 'led' || circuit.resistor === 'fitted') return [];
  const { chain } = branchesOf(circuit);
  const left = headroom(circuit);
  if (circuit.resistor === null || left < LEAST_HEADROOM) {
    const needs =
      chain > 1 ? `${chain} LEDs of ${voltsText(circuit.forward)}` : `An LED of ${voltsText(circuit.forward)}`;
    return [
      error('no-resistor-fits', path, {
        what: `${nameOf(load)}: ${voltsText(circuit.volts)} is too little. ${needs} leave${chain > 1 ? '' : 's'} ${voltsText(Math.max(0, left))} for the resistor.`,
        why: 'With so little across it a resistor sets no current: the lamp stays dark, or burns as it likes.',
        cure:
          chain > 1
            ? 'Wire the LEDs side by side, each with its own resistor, or feed them from a higher voltage through a transistor.'
            : 'Feed it from a higher voltage through a transistor, or use an LED with a lower forward voltage.',
      }),
    ];
  }
  const { milliamps, watts, rating } = branchFigures(circuit);
  const findings: Finding[] = [];
  if (circuit.isGiven && milliamps > circuit.milliamps * TOO_MUCH) {
    findings.push(
      warning('resistor-small', path, {
        what: `${nameOf(load)}: ${circuit.resistor} Ω let ${milliampsText(milliamps)} through, and ${milliampsText(circuit.milliamps)} are wanted.`,
        why: 'It burns brighter than the others and not for long.',
        cure: 'Use a larger resistor, or say that so much current is wanted.',
      }),
    );
  }
  if (rating === null) {
    findings.push(
      warning('resistor-hot', path, {
        what: `${nameOf(load)}: its resistor turns ${watts.toFixed(1)} W into heat.`,
        why: `The usual ones are built for up to ${RATINGS.value.at(-1)} W, and should carry half of it at most.`,
        cure: 'Put LEDs one after the other behind it, lower the supply or the current, or share it out among several.',
      }),
    );
  }
  return findings;
}

function checkFeed(load: Load, boardVolts: number): Finding[] {
  const { circuit, path, activeLow } = load;
  if (circuit.driver !== 'direct' || Math.abs(circuit.volts - boardVolts) < 0.01) return [];
  if (activeLow && circuit.volts < boardVolts) return [];
  const above = circuit.volts > boardVolts;
  const words = {
    what: `${nameOf(load)} is said to be fed from ${voltsText(circuit.volts)}, and the board works at ${voltsText(boardVolts)}.`,
    why: above
      ? 'No pin may see more than 0.5 V above the supply of its chip (absolute maximum, data sheets 8271 §29.1 and 2549 §31).'
      : 'A high output gives the voltage of the board, so more current flows than worked out.',
    cure: above
      ? 'Put a transistor behind the output, or use a power register, and say so as its driver.'
      : 'Leave the voltage out: the output feeds the lamp.',
  };
  return [above ? error('direct-volts', path, words) : warning('direct-volts', path, words)];
}

function checkDriver(load: Load): Finding[] {
  const { circuit, path, output, activeLow } = load;
  if (circuit.driver === 'direct') return [];
  const findings: Finding[] = [];
  if (circuit.driver === 'power-register' && output < FIRST_BIT) {
    findings.push(
      error('power-register-pin', path, {
        what: `${nameOf(load)} is said to hang on a power register, and its output is a pin.`,
        why: 'A power register is a chip of the chain: its outputs are bits.',
        cure: 'Give the lamp a bit of the chain, or a transistor as its driver.',
      }),
    );
  }
  if (activeLow) {
    const isRegister = circuit.driver === 'power-register';
    findings.push(
      error('driver-level', path, {
        what: `${nameOf(load)} is said to be lit when its output is low, behind ${isRegister ? 'a power register' : 'a transistor'}.`,
        why: isRegister
          ? 'A power register switches its output to ground when the bit is high (data sheet SLIS032B).'
          : 'An NPN transistor switches its lamps to ground when the output is high.',
        cure: 'Take "lit when low" off this lamp: wire its plus side to the supply and its minus side to the driver.',
      }),
    );
  }
  return findings;
}
