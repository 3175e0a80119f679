/** From what went wrong with a boot loader to the problem that a person reads. */
import type { Problem } from '../../../shared/workbench/contract.ts';
import { type Circumstances, describeProblem, type ProblemCode } from '../../../shared/workbench/problems.ts';
import type { LeftAs, WriteError } from '../loader/types.ts';
import { openingProblem } from './failures.ts';

const hex = (at: number): string => `byte 0x${at.toString(16)}`;

/** `wanted` is the chip of the layout, as people read it. */
export function writeProblem(error: WriteError, where: Circumstances, wanted: string): Problem {
  const say = (code: ProblemCode, more: Circumstances = {}) => describeProblem(code, { ...where, ...more });
  switch (error.kind) {
    case 'open':
      return openingProblem(error.error, where);
    case 'noLoader':
      return say('noLoader', whyNoLoader(error));
    case 'wrongChip':
      return say('loaderChip', { wanted, found: error.found.name });
    case 'unknownChip':
      return say('loaderUnknownChip', { detail: `signature ${error.signature}` });
    case 'noImage':
      return say('firmwareMissing');
    case 'cancelled':
      return say(error.leftAs === 'empty' ? 'firmwareEmptied' : 'firmwareCancelled');
    case 'differs':
      return say('firmwareDiffers', { detail: hex(error.at) });
    case 'refused':
      return say(broken(error.leftAs), { detail: `${error.detail} at ${hex(error.at)}` });
    case 'silent':
      return say(broken(error.leftAs), { detail: 'the boot loader fell silent' });
    case 'ended':
      return say(broken(error.leftAs), { detail: error.cause });
    case 'tooLarge':
      return say('firmwareTooLarge', { bytes: error.bytes, room: error.room });
  }
}

function broken(leftAs: LeftAs): ProblemCode {
  return leftAs === 'empty' ? 'firmwareBroken' : 'firmwareNotBegun';
}

function whyNoLoader({ pulsed, heardBytes }: { readonly pulsed: boolean; readonly heardBytes: boolean }) {
  if (heardBytes) return { cause: 'Something talks there, but not as a boot loader does: the board was not reset.' };
  return pulsed ? {} : { cause: 'This port cannot reset a board by itself, and its button was not pressed in time.' };
}
