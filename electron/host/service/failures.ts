/** From what went wrong on the way to a board to the problem that a person reads. */
import { capital } from '../../../shared/findings/capital.ts';
import type { Who } from '../../../shared/link/requests.ts';
import { PROTOCOL_VERSION } from '../../../shared/link/vocabulary.ts';
import type { Problem } from '../../../shared/workbench/contract.ts';
import { type Circumstances, describeProblem, type ProblemCode } from '../../../shared/workbench/problems.ts';
import type { UploadError } from '../upload.ts';
import type { OpenProblem } from './ports.ts';

const CHIP_NAMES: Readonly<Record<string, string>> = { atmega328p: 'ATmega328P', atmega2560: 'ATmega2560' };

export function chipName(chip: string): string {
  return CHIP_NAMES[chip] ?? chip;
}

const OPENING: Readonly<Record<OpenProblem['kind'], ProblemCode>> = {
  missing: 'portMissing',
  busy: 'portBusy',
  denied: 'portDenied',
  notSerial: 'portNotSerial',
  failed: 'portFailed',
  off: 'powerOff',
  stopped: 'virtualFailed',
};

export function openingProblem(error: OpenProblem, where: Circumstances): Problem {
  const group = 'group' in error ? error.group : undefined;
  const cause = error.kind === 'failed' || error.kind === 'stopped' ? { cause: asSentence(error.detail) } : {};
  const code = 'joined' in error && error.joined ? 'portDeniedYet' : OPENING[error.kind];
  return describeProblem(code, {
    ...where,
    ...cause,
    ...(group === undefined ? {} : { group }),
    detail: error.detail,
  });
}

/** What a request came to. `refusedAs` names the text for a refusal. */
export function requestProblem(
  error: UploadError,
  where: Circumstances,
  refusedAs: 'refused' | 'uploadRefused' = 'refused',
): Problem {
  switch (error.kind) {
    case 'refused': {
      const place = error.place === null ? {} : { detail: `byte ${error.place}` };
      return describeProblem(refusedAs, { ...where, refusal: error.code, ...place });
    }
    case 'misunderstood':
      return describeProblem('notUnderstood', { ...where, detail: error.what });
    case 'silent':
      return describeProblem('silent', where);
    case 'foreign':
      return describeProblem('foreignFirmware', where);
    case 'cancelled':
      return describeProblem('cancelled', where);
    case 'ended':
      return describeProblem('cableOut', { ...where, detail: error.cause });
  }
}

/** While greeting, silence and chatter mean other things than later. */
export function greetingProblem(error: UploadError, where: Circumstances): Problem {
  return error.kind === 'silent' ? describeProblem('noAnswer', where) : requestProblem(error, where);
}

/** Why a board that answered is not the one that the layout means; null when it is. */
export function whoProblem(who: Who, chip: string, where: Circumstances): Problem | null {
  const detail = `protocol ${who.protocol}, firmware ${who.firmware}`;
  if (who.protocol < PROTOCOL_VERSION) return describeProblem('protocolOld', { ...where, detail });
  if (who.protocol > PROTOCOL_VERSION) return describeProblem('protocolNew', { ...where, detail });
  if (who.chip === chip) return null;
  return describeProblem('wrongChip', { ...where, wanted: chipName(chip), found: chipName(who.chip) });
}

function asSentence(text: string): string {
  const start = capital(text.trim());
  return /[.!?]$/.test(start) ? start : `${start}.`;
}
