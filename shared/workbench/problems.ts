/**
 * Every problem that a person can meet between panel, host and board: what
 * happened, the likely cause, the next step. One place, so that each has all
 * three and no screen makes up its own.
 */
import { capital } from '../findings/capital.ts';
import { CODES } from '../link/vocabulary.ts';
import type { Problem } from './contract.ts';

/** What a text may speak of; each text uses what it needs and does without what is missing. */
export interface Circumstances {
  /** Name of the board in the layout, as a person reads it. */
  readonly board?: string;
  readonly port?: string;
  /** Name of a layout file, without its folder. */
  readonly file?: string;
  /** Group that owns the device node. */
  readonly group?: string;
  /** Chips: of the layout, of the board that answered. */
  readonly wanted?: string;
  readonly found?: string;
  /** Number of a code of the protocol. */
  readonly refusal?: number;
  /** Bytes: of the board image, of a slot. */
  readonly bytes?: number;
  readonly room?: number;
  /** Sentence of somebody else: a finding, an error of the system. */
  readonly cause?: string;
  readonly detail?: string;
}

type Words = Pick<Problem, 'what' | 'why' | 'next'>;

const the = (c: Circumstances): string => c.board ?? 'the board';
const at = (c: Circumstances): string => c.port ?? 'the port';
const theFile = (c: Circumstances): string => c.file ?? 'The file';

const TEXTS = {
  // Between panel and host.
  badRequest: () => ({
    what: 'The panel asked for something that the host does not know.',
    why: 'Panel and host are of different versions, or another program spoke to the host.',
    next: 'Close Amberwick and start it again.',
  }),
  hostFailed: () => ({
    what: 'Something went wrong inside Amberwick.',
    why: 'This is a mistake in the program, not in your layout. The board runs on.',
    next: 'Try again; if it happens again, report it with the details and the session log.',
  }),
  hostGone: () => ({
    what: 'The panel has lost the program behind it.',
    why: 'Amberwick was closed, or the computer was asleep. Boards run on by themselves.',
    next: 'Start Amberwick again, or load this page again.',
  }),

  // Pictures under the plan.
  badPicture: () => ({
    what: 'This file is no picture that can lie under the plan.',
    why: 'It must be a PNG, JPEG or WebP picture. The file is something else, or it is damaged.',
    next: 'Save it as PNG or JPEG in the program it came from, and choose that file.',
  }),
  pictureTooLarge: () => ({
    what: 'This picture is too large.',
    why: 'It may have 10 MB and 100 million pixels at most, so that the plan still moves smoothly.',
    next: 'Make it smaller in a picture program, and choose that file.',
  }),
  pictureNotKept: (c) => ({
    what: 'This computer could not keep the picture.',
    why: c.cause ?? 'The disk may be full.',
    next: 'Make room on the disk and choose the picture again.',
  }),
  noPicture: () => ({
    what: 'The picture under the plan is not on this computer.',
    why: 'The layout came from another computer, or the picture was taken away from the data folder.',
    next: 'Choose the picture again on the plan, or take it away.',
  }),

  // Reaching a port.
  noSuchBoard: (c) => ({
    what: `The open layout has no board named "${c.board ?? ''}".`,
    why: 'Another layout was opened meanwhile.',
    next: 'Choose one of the boards shown.',
  }),
  portMissing: (c) => ({
    what: `There is no board at ${at(c)}.`,
    why: 'The cable is out, goes to power only, or the board has come back under another name.',
    next: 'Plug the board in and choose it in the list of ports.',
  }),
  portTaken: (c) => ({
    what: `${capital(at(c))} already belongs to ${the(c)}.`,
    why: 'A port leads to one board only.',
    next: 'Disconnect it there first, or choose another port.',
  }),
  portBusy: (c) => ({
    what: `${capital(at(c))} is in use by another program.`,
    why: 'Only one program at a time can have a port: a serial monitor or a second Amberwick may be open.',
    next: 'Close the other program and connect again.',
  }),
  portDenied: (c) => ({
    what: `This user may not open ${at(c)}.`,
    why: c.group
      ? `The port belongs to the group "${c.group}", and this user is not in it.`
      : 'The system gives this port to other users only.',
    next: c.group
      ? `In a terminal: sudo usermod -aG ${c.group} $USER. Then log out and in again.`
      : 'Ask whoever looks after this computer for access to serial ports.',
  }),
  portDeniedYet: (c) => ({
    what: `This user may open ${at(c)} only after logging in anew.`,
    why: c.group
      ? `It belongs to the group "${c.group}", which this user has joined since logging in.`
      : 'This user has joined its group since logging in.',
    next: 'Log out and in again, or start the computer anew; then connect.',
  }),
  portNotSerial: (c) => ({
    what: `${capital(at(c))} is no serial port.`,
    why: 'There is a file or another kind of device of this name.',
    next: 'Choose one of the ports in the list.',
  }),
  portFailed: (c) => ({
    what: `${capital(at(c))} could not be opened.`,
    why: c.cause ?? 'The system gave no reason.',
    next: 'Pull the cable out, plug it in again, and connect.',
  }),
  powerOff: (c) => ({
    what: `The virtual board for ${the(c)} is switched off.`,
    why: 'What was not kept is gone, as on a real board.',
    next: 'Switch it on; it starts with what was kept.',
  }),
  virtualFailed: (c) => ({
    what: `The virtual board for ${the(c)} stopped.`,
    why: c.cause ?? 'The emulator ended by itself.',
    next: 'Connect it again; if it happens again, report it with the session log.',
  }),

  // Greeting.
  noAnswer: (c) => ({
    what: `Nothing answered at ${at(c)}.`,
    why: 'There is no Amberwick firmware on this board yet, or something else is plugged in here.',
    next: 'Check that it is the right port; then press "Put the firmware on".',
  }),
  foreignFirmware: (c) => ({
    what: `The board at ${at(c)} talks, but not as an Amberwick board does.`,
    why: 'It runs another program.',
    next: 'Press "Put the firmware on" (this replaces the other program), or choose another port.',
  }),
  protocolOld: (c) => ({
    what: `The firmware of ${the(c)} is older than this app.`,
    why: 'They speak different versions of the protocol.',
    next: 'Press "Update the firmware"; what the board has kept is put back afterwards.',
  }),
  protocolNew: (c) => ({
    what: `The firmware of ${the(c)} is newer than this app.`,
    why: 'They speak different versions of the protocol.',
    next: 'Update Amberwick on this computer.',
  }),
  wrongChip: (c) => ({
    what: `The board at ${at(c)} has an ${c.found ?? 'other chip'}; the layout says ${c.wanted ?? 'another one'}.`,
    why: 'Pins and memory differ between the two.',
    next: 'Choose the port of the right board, or change the chip in the layout.',
  }),
  otherBoard: (c) => ({
    what: `The board at ${at(c)} is not ${the(c)}.`,
    why: 'Its identity is another one. Nothing has been sent to it, and it is left alone.',
    next: `Plug ${the(c)} in: it is still looked for. If this board shall take its place, connect it here.`,
  }),

  // While connected.
  notConnected: (c) => ({
    what: `${capital(the(c))} is not connected.`,
    why: 'This needs a board that answers.',
    next: 'Connect a board first.',
  }),
  cableOut: (c) => ({
    what: `The connection to ${the(c)} broke off.`,
    why: 'The cable was pulled, or the board lost its power. With power it runs on by itself.',
    next: 'Plug it in again, here or at another port: it is found by itself.',
  }),
  silent: (c) => ({
    what: `${capital(the(c))} has fallen silent.`,
    why: 'The port is still there, but the board no longer answers.',
    next: 'Wait a moment; if it stays silent, pull the cable out and plug it in again.',
  }),
  boardBusy: (c) => ({
    what: `${capital(the(c))} is still at work.`,
    why: 'Sending, keeping and putting back are done one after the other.',
    next: 'Wait until it is done, then try again.',
  }),
  cancelled: (c) => ({
    what: `Sending to ${the(c)} was called off.`,
    why: 'You asked for it. The lamps run on as before.',
    next: 'Send again when you like.',
  }),
  refused: (c) => ({
    what: `${capital(the(c))} refused: ${reasonOf(c.refusal)}.`,
    why: 'What was asked does not fit what the board runs now.',
    next: cureOf(c.refusal),
  }),
  uploadRefused: (c) => ({
    what: `${capital(the(c))} did not take the layout: ${reasonOf(c.refusal)}.`,
    why: 'The board checks every table before it runs it. What ran before runs on.',
    next: cureOf(c.refusal),
  }),
  notUnderstood: (c) => ({
    what: `${capital(the(c))} gave an answer that makes no sense.`,
    why: 'Line noise, or firmware of another make.',
    next: 'Try again; if it happens again, use a shorter cable or update the firmware.',
  }),
  readBackFailed: (c) => ({
    what: `What ${the(c)} runs could not be read back.`,
    why: 'The board answered, but what came is not a whole table.',
    next: 'Disconnect, connect again, and send the layout if it still cannot be read.',
  }),
  storeDamaged: (c) => ({
    what: `${capital(the(c))} could not use what it had kept when it started.`,
    why: 'Its power may have failed at a bad moment, its memory is worn, or a newer firmware had kept it.',
    next: 'Update the firmware if a newer one was on it. Else send the layout and keep it; if it comes back, use another board.',
  }),
  memoryWorn: (c) => ({
    what: `The memory of ${the(c)} has been written nearly as often as it is made for.`,
    why: c.cause ?? 'Each keep and each table sent wears it a little.',
    next: 'Let another board take its place in good time: "Replace the board" brings over all that it keeps.',
  }),
  keepGone: (c) => ({
    what: `This computer no longer has that copy of what ${the(c)} kept.`,
    why: 'Old copies make room for newer ones.',
    next: 'Open the list again and choose one that is there.',
  }),
  keptNothing: (c) => ({
    what: `${capital(the(c))} kept nothing before that could be kept again.`,
    why: 'Its memory was empty, or could not be read.',
    next: 'Nothing need be done. The next undo takes back what was changed before.',
  }),
  keepOther: (c) => ({
    what: `What ${the(c)} kept before is another layout, or has other limits of times.`,
    why: 'It keeps what it runs, and it cannot run that one without starting it.',
    next: 'Choose it in Kept before: then it runs and is kept.',
  }),
  otherTable: (c) => ({
    what: `${capital(the(c))} runs another layout than the open one.`,
    why: 'Its sites and dials have other numbers, so a change could reach the wrong lamp.',
    next: 'Send this layout to the board, or open the file that it runs.',
  }),
  notVirtual: (c) => ({
    what: `${capital(the(c))} is a real board.`,
    why: 'Only a virtual board has a switch and a speed here.',
    next: 'Use the switch of its power supply.',
  }),

  noCheck: (c) => ({
    what: `No lamp check is under way on ${the(c)}.`,
    why: 'It broke off, or was ended: the board shows its sites again.',
    next: 'Begin the check again; what was answered is kept.',
  }),
  cannotTimeLamps: (c) => ({
    what: `${capital(the(c))} cannot light a lamp for a short time.`,
    why: 'Its firmware is older than 1.2.0. An output that is not yet proven must not stay on: it may be shorted.',
    next: 'Press "Update the firmware", then begin the lamp check again.',
  }),
  cannotMeasure: (c) => ({
    what: `${capital(the(c))} cannot measure its wiring or its supply.`,
    why: 'Its firmware is older than 1.2.0.',
    next: 'Press "Update the firmware", then try again. What the board keeps stays.',
  }),
  outputNotFree: (c) => ({
    what: `${capital(the(c))} did not light ${c.detail ?? 'that output'}.`,
    why: 'The running table uses that output for a lamp, an input or the chain, or the board does not have it.',
    next: 'Choose another output, or light the lamp there by the lamp check.',
  }),
  pinNotMeasured: (c) => ({
    what: `${capital(the(c))} did not measure ${c.detail ?? 'that pin'}.`,
    why: 'Only pins of lamps and free pins can be measured: no inputs, no wires of the chain, nothing behind the chain.',
    next: 'Look at the lamp there by eye, in the lamp check.',
  }),
  lampsLit: (c) => ({
    what: `${capital(the(c))} did not measure anything.`,
    why: 'A lamp was lit. Pins are measured in the dark, so that no lamp is seen to blink.',
    next: 'Darken the lamps first: begin a lamp check with the other lamps dark.',
  }),
  meterUnlikely: (c) => ({
    what: `${capital(the(c))} was not calibrated.`,
    why: 'What the meter is said to show does not fit what the board measures, by more than its reference can be off.',
    next: 'Measure between 5V and GND of the board, and type it in volts as the meter shows it at this moment.',
  }),
  checkNotKept: (c) => ({
    what: `The lamp check of ${the(c)} could not be written to this computer's disk.`,
    why: 'The disk may be full or the folder may not be written to. It is kept as long as Amberwick runs.',
    next: 'Finish the check and save the layout: the result is in it, too.',
  }),

  // Writing the firmware.
  noLoader: (c) => ({
    what: `No boot loader answered at ${at(c)}.`,
    why: c.cause ?? 'The board was not reset, has no boot loader, or another device is plugged in here.',
    next: 'Take a capacitor at the reset pin out, or press the reset button while this is tried again.',
  }),
  loaderChip: (c) => ({
    what: `The chip at ${at(c)} is an ${c.found ?? 'other one'}, not the one of the layout.`,
    why: `The layout says ${c.wanted ?? 'another chip'} for ${the(c)}. Nothing was written.`,
    next: 'Choose the port of the right board, or change the chip in the layout.',
  }),
  loaderUnknownChip: (c) => ({
    what: `The chip at ${at(c)} is none that Amberwick has firmware for.`,
    why: 'It needs an ATmega328P, an ATmega328PB or an ATmega2560. Nothing was written.',
    next: 'Use a board with one of these chips.',
  }),
  firmwareMissing: () => ({
    what: 'The firmware that comes with Amberwick cannot be read.',
    why: 'A file of the program is missing or was changed. Nothing was written.',
    next: 'Install Amberwick again.',
  }),
  firmwareTooLarge: (c) => ({
    what: `The firmware does not fit beside the boot loader of ${the(c)}.`,
    why:
      c.bytes && c.room
        ? `It has ${c.bytes} bytes; this loader leaves ${c.room}. Nothing was written.`
        : 'Nothing was written.',
    next: 'Use a board with the newer, smaller boot loader.',
  }),
  firmwareCancelled: (c) => ({
    what: `Writing the firmware of ${the(c)} was called off before it began.`,
    why: 'You asked for it. The board is as it was.',
    next: 'Press the same button again when you like.',
  }),
  firmwareEmptied: (c) => ({
    what: `Writing the firmware of ${the(c)} was called off half way.`,
    why: 'You asked for it. The board is empty and its lamps are dark; nothing is broken.',
    next: 'Press the same button again; it starts from the beginning.',
  }),
  firmwareBroken: (c) => ({
    what: `Writing the firmware of ${the(c)} was interrupted.`,
    why: c.cause ?? 'The board is empty, nothing is broken: its boot loader is still there.',
    next: 'Check the cable and press the same button again.',
  }),
  firmwareNotBegun: (c) => ({
    what: `The firmware of ${the(c)} could not be written.`,
    why: c.cause ?? 'Its boot loader stopped answering before anything was changed.',
    next: 'Check the cable and press the same button again.',
  }),
  firmwareDiffers: (c) => ({
    what: `What was written to ${the(c)} reads back differently.`,
    why: 'The line is noisy, or the memory of the chip is worn. The board is empty, nothing else is broken.',
    next: 'Press the same button again, with a shorter cable; if it stays so, use another board.',
  }),
  notReal: (c) => ({
    what: `${capital(the(c))} is the virtual board.`,
    why: 'It always runs the firmware that comes with Amberwick.',
    next: 'Choose the port of a real board.',
  }),
  copyFailed: (c) => ({
    what: `What ${the(c)} keeps could not be copied to this computer.`,
    why: c.cause ?? 'The disk may be full or the folder may not be written to.',
    next: 'Make room or choose another data folder; until then a broken board cannot be replaced as it was.',
  }),
  restoreFailed: (c) => ({
    what: `What ${the(c)} had kept could not be put back.`,
    why: c.cause ?? 'The new firmware did not take it.',
    next: 'Send the layout and keep it; the copy stays on this computer.',
  }),

  // The layout.
  layoutUnreadable: (c) => ({
    what: 'This file cannot be read as a layout.',
    why: c.cause ?? 'It is not one, or a part is missing.',
    next: 'Mend it at the place named, or open another copy. The layout open before stays open.',
  }),
  fileUnreadable: (c) => ({
    what: `${theFile(c)} could not be opened.`,
    why: c.cause ?? 'The system gave no reason.',
    next: 'Choose another file. The layout open before stays open.',
  }),
  fileGone: (c) => ({
    what: `${theFile(c)} is no longer there.`,
    why: 'It was moved, renamed or deleted, or its drive is not plugged in.',
    next: 'Look for it where it may be now, or plug its drive in and try again.',
  }),
  noFileYet: () => ({
    what: 'This layout has no file yet.',
    why: 'It is new, or it came from a place that cannot be written to.',
    next: 'Save it under a name.',
  }),
  fileChanged: (c) => ({
    what: `${theFile(c)} was changed by something else, so it was not saved over.`,
    why: 'Another program, or another computer by way of a shared folder, has written to it since it was opened here.',
    next: 'Save over it, save under another name, or go back to what is in the file.',
  }),
  nameTaken: (c) => ({
    what: `There is a file with the name ${c.file ?? 'that you typed'} already.`,
    why: 'What is in it would be gone.',
    next: 'Type another name, or save over it.',
  }),
  badFileName: (c) => ({
    what: 'A file cannot have this name.',
    why: c.cause ?? 'Some system would not take it.',
    next: 'Type another name: letters, digits, blanks and hyphens always work.',
  }),
  notSaved: (c) => ({
    what: `${theFile(c)} was not saved.`,
    why: c.cause ?? 'The disk may be full or the folder may not be written to.',
    next: 'Save it under another name or in another folder. Nothing is lost: this computer keeps a copy.',
  }),
  layoutCopyFailed: (c) => ({
    what: 'The open layout could not be copied to this computer.',
    why: c.cause ?? 'The disk may be full or the folder may not be written to.',
    next: 'Save the layout; until there is room again, only what is saved outlives the closing of Amberwick.',
  }),
  noChooser: () => ({
    what: 'There is no window for choosing files here.',
    why: 'In a browser only the folder of layouts can be reached, and files that you hand over.',
    next: 'Choose from the folder of layouts, or open a file by handing it over.',
  }),
  notOpenBefore: () => ({
    what: 'What was open before cannot be put back.',
    why: 'Too much was opened since, or Amberwick was started anew.',
    next: 'Open it from the list of layouts; what was not saved is there, too.',
  }),
  templateNotKept: (c) => ({
    what: 'The template was not kept.',
    why: c.cause ?? 'The disk may be full or the folder may not be written to.',
    next: 'Make room or choose another data folder, then try again.',
  }),
  noTemplate: () => ({
    what: 'This template is no longer there.',
    why: 'It was dropped in another window.',
    next: 'Choose another one.',
  }),
  layoutWrong: (c) => ({
    what: 'The layout cannot be sent as it is.',
    why: c.cause ?? 'It has mistakes.',
    next: 'Mend what is marked in the layout, then send again.',
  }),
  tooLarge: (c) => ({
    what: `The layout does not fit into ${the(c)}.`,
    why: c.bytes && c.room ? `It needs ${c.bytes} bytes; the board has ${c.room}.` : 'It needs more memory.',
    next: 'Move sites to a second board, make sites alike so that they share a table, or use an ATmega2560 board.',
  }),
  noPdf: () => ({
    what: 'No PDF file was made.',
    why: 'In a browser the page is printed by the browser itself.',
    next: 'Print the sheet and choose a PDF file as the printer.',
  }),
  noFaultsHere: (c) => ({
    what: `Wiring faults cannot be set on ${the(c)}.`,
    why: 'It is not a virtual board.',
    next: 'Connect the virtual board to practise on.',
  }),
  noSuchFault: (c) => ({
    what: `One of these wiring faults does not fit ${the(c)}.`,
    why: 'The layout has changed since they were chosen.',
    next: 'Choose them again.',
  }),
  sessionUnreadable: (c) => ({
    what: 'This session cannot be read.',
    why: c.cause ?? 'Its file was taken away or is damaged.',
    next: 'Choose another session. The file stays as it is.',
  }),
  noSuchNote: () => ({
    what: 'Nothing was corrected.',
    why: 'That line of the log is no note of yours.',
    next: 'Choose one of your notes.',
  }),
  notAPhoto: () => ({
    what: 'No photo was noted.',
    why: 'What was given is no path of a picture: its name must end as one, such as .jpg or .png.',
    next: 'Give the path of the file, such as photos/market-cross.jpg.',
  }),
  noPhotoChooser: () => ({
    what: 'No photo could be chosen here.',
    why: 'A browser does not tell where a file is.',
    next: 'Type or paste the path of the photo.',
  }),
  logFailed: (c) => ({
    what: 'The session log cannot be written.',
    why: c.cause ?? 'The disk may be full or the folder may not be written to.',
    next: 'Make room or choose another data folder, then start Amberwick again.',
  }),
} satisfies Record<string, (c: Circumstances) => Words>;

export type ProblemCode = keyof typeof TEXTS;

export const PROBLEM_CODES = Object.keys(TEXTS) as readonly ProblemCode[];

export function describeProblem(code: ProblemCode, circumstances: Circumstances): Problem {
  const words: Words = (TEXTS[code] as (c: Circumstances) => Words)(circumstances);
  return { code, ...words, ...detailOf(circumstances) };
}

/** A failed outcome. */
export function problem(
  code: ProblemCode,
  circumstances: Circumstances,
): { readonly ok: false; readonly problem: Problem } {
  return { ok: false, problem: describeProblem(code, circumstances) };
}

function detailOf(c: Circumstances): { detail?: string } {
  const parts = [c.refusal === undefined ? null : `code ${c.refusal}`, c.detail].filter((part) => part);
  return parts.length === 0 ? {} : { detail: parts.join(', ') };
}

function reasonOf(refusal: number | undefined): string {
  return CODES.find(({ code }) => code === refusal)?.reason ?? 'for a reason that this app does not know';
}

function cureOf(refusal: number | undefined): string {
  return CODES.find(({ code }) => code === refusal)?.cure ?? 'Update Amberwick on this computer.';
}
