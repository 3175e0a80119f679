import { describe, expect, it } from 'vitest';
import { encodeEvent, encodeNo, encodeOk, encodeRequest } from '../../shared/link/line.ts';
import { frameMeaning } from '../../shared/link/meaning.ts';
import { CODES, EVENTS, FAULTS, VERBS } from '../../shared/link/vocabulary.ts';
import { crc16 } from '../../shared/table/crc.ts';

type Parts = readonly (string | number)[];

function asked(word: string, ...args: Parts): string {
  return frameMeaning(encodeRequest(7, word, args).trimEnd(), 'toBoard').meaning;
}

function answered(request: readonly [word: string, ...args: Parts], ...fields: Parts): string {
  const [word, ...args] = request;
  const of = { word, args: args.map(String) };
  return frameMeaning(encodeOk(7, fields).trimEnd(), 'fromBoard', of).meaning;
}

function told(word: string, ...fields: Parts): string {
  return frameMeaning(encodeEvent(3, word, fields).trimEnd(), 'fromBoard').meaning;
}

/** "Town board" in hexadecimal. */
const NAME = '546F776E20626F617264';

/** Each request with its sentence, and what a fine answer says. */
const TALK: readonly (readonly [request: readonly [string, ...Parts], says: string, answer: Parts, says: string])[] = [
  [
    ['who'],
    'Asks who is there.',
    ['amberwick', 1, '1.1.0', 1, 'atmega328p', '0BADCAFE', 'AB04', NAME],
    'An Amberwick board: protocol 1, firmware 1.1.0, store 1, chip atmega328p, identity 0BADCAFE, table AB04, the name "Town board".',
  ],
  [
    ['caps'],
    'Asks how much the board holds.',
    [496, 32, 16, 8, 4, 1, 0, 64, 16, 32],
    'Holds 496 bytes, 32 lamps, 16 sites, 8 inputs, 4 groups, 1 program, 0 chips; requests of 64 characters, 16 bytes a part, 32 bytes a read.',
  ],
  [
    ['state'],
    'Asks how the board is.',
    [12, 'power', 4980, 312, 'run', '03', 1, 2],
    'Up for 12 s, started by power, supply 4980 mV, 312 bytes of stack never used, master state run, 1 line dropped, 2 keeps; a table runs, running image differs from the kept one.',
  ],
  [
    ['begin', 205, 'AB04'],
    'Begin an upload of 205 bytes with CRC AB04.',
    [],
    'Done: begin an upload of 205 bytes with CRC AB04.',
  ],
  [['part', 32, '0102030405'], 'Stage 5 bytes from byte 32 on.', [32], 'Staged from byte 32 on.'],
  [['start'], 'Run what was uploaded.', ['AB04'], 'Table AB04 runs.'],
  [['drop'], 'Give up the upload.', [], 'Done: give up the upload.'],
  [
    ['sum', 'run'],
    'Asks for length and CRC of the running table.',
    [205, '1234', 'AB04'],
    'The running table has 205 bytes, CRC 1234, table AB04.',
  ],
  [['read', 'kept', 64], 'Asks for the kept table from byte 64 on.', [64, '01FF'], '2 bytes from byte 64 on.'],
  [['dial', 2, 0, 18_000], 'Set dial 0 of site 2 to 18.0 s.', [18_000], 'Dial 0 of site 2 is 18.0 s.'],
  [['keep'], 'Keep what runs.', [22], 'Kept, for the 22nd time.'],
  [['back'], 'Put back what is kept.', [], 'Done: put back what is kept.'],
  [['erase'], 'Forget what is kept and go dark.', [], 'Done: forget what is kept and go dark.'],
  [['run'], 'End the pause.', [], 'Done: end the pause.'],
  [['pause'], 'Pause.', [], 'Done: pause.'],
  [['step', 1], 'End the running row of site 1.', [4], 'Row 4 of site 1 ends.'],
  [['again', 1], 'Start site 1 from the beginning.', [], 'Done: start site 1 from the beginning.'],
  [['hold', 1, 1], 'Hold site 1 in its row.', [], 'Done: hold site 1 in its row.'],
  [['lamp', 3, 'on'], 'Force lamp 3 on.', [], 'Done: force lamp 3 on.'],
  [['master', 'night'], 'Set the master state to night.', [], 'Done: set the master state to night.'],
  [['press', 0, 'on'], 'Force input 0 on.', [], 'Done: force input 0 on.'],
  [['inputs'], 'Asks for the levels of the inputs.', ['5', '0'], 'Active inputs: 0, 2; demands: none.'],
  [['tell', 1], 'Tell what happens.', [], 'Done: tell what happens.'],
  [
    ['snap'],
    'Asks for a snapshot of the board.',
    [12_500, '21', '0', 'run', '01'],
    'At 12.5 s: lamps lit: 0, 5; demands: none; master state run; a table runs.',
  ],
  [
    ['site', 1],
    'Asks for a snapshot of site 1.',
    [3, -250, '01', 0],
    'Site 1 is in row 3, -0.25 s after its begin; held by the host; no fault.',
  ],
  [
    ['label', '0BADCAFE', NAME],
    'Write the identity 0BADCAFE and the name "Town board".',
    [],
    'Done: write the identity 0BADCAFE and the name "Town board".',
  ],
  [['beat'], 'Says that the host is there.', [3_725_125], 'The board time is 3725.125 s.'],
  [['pulse', 19, 1, 500], 'Drive pin 19 high for 0.5 s.', [], 'Done: drive pin 19 high for 0.5 s.'],
  [
    ['probe', 14, 1],
    'Measure pin 14, whose lamp is lit when high.',
    [1, 371, 1017],
    'Pin 14: level high, at rest 371 of 1023, driven 1017 of 1023.',
  ],
  [
    ['supply'],
    'Asks for the supply.',
    [4987, 4820, '-'],
    'The supply is 4987 mV, lowest 4820 mV since it was asked last; never calibrated.',
  ],
  [
    ['meter', 4970],
    'Calibrate the supply by a meter that shows 4970 mV.',
    [1084],
    'Calibrated: the reference is 1084 mV.',
  ],
  [
    ['guard'],
    'Asks what the guard has seen.',
    [3, 2, 4, '01', 1, 0],
    'Since its start 3 faults, the last one of site 2: running state damaged; the running table was damaged: the kept one was started in its place; since power-on 1 restart by the watchdog, 0 by the supply.',
  ],
];

describe('requests and their answers', () => {
  it.each(TALK)('%j says "%s"', (request, says, fields, answer) => {
    expect(asked(...request)).toBe(says);
    expect(answered(request, ...fields)).toBe(answer);
  });

  it('are there for every word of the vocabulary, and no two requests read alike', () => {
    expect(TALK.map(([[word]]) => word)).toEqual(VERBS.map(({ word }) => word));
    expect(new Set(TALK.map(([, says]) => says)).size).toBe(VERBS.length);
  });

  const FORMS: readonly (readonly [readonly [string, ...Parts], string])[] = [
    [['dial', 2, 0], 'Asks for dial 0 of site 2.'],
    [['dial', 129, 0, 60_000], 'Set the cycle of group 1 to 60.0 s.'],
    [['dial', 2, 1, 750], 'Set dial 1 of site 2 to 0.75 s.'],
    [['again'], 'Start all sites from the beginning.'],
    [['hold', 1, 0], 'Let site 1 go on.'],
    [['lamp', 'all', 'auto'], 'Leave all lamps to the board.'],
    [['lamp', 7, 'on', 150], 'Force lamp 7 on for 0.15 s, then off.'],
    [['pulse', 130, 0, 2000], 'Drive chain bit 2 low for 2.0 s.'],
    [['probe', 2, 0], 'Measure pin 2, whose lamp is lit when low.'],
    [['master', 'auto'], 'Leave the master state to the layout.'],
    [['press', 2, 'auto'], 'Leave input 2 to the board.'],
    [['tell', 0], 'Stop telling what happens.'],
    [['label', '00000000', '-'], 'Write the identity 00000000 and no name.'],
  ];

  it.each(FORMS)('%j says "%s"', (request, says) => {
    expect(asked(...request)).toBe(says);
  });

  it('done again, a word that is done once has no fields to say', () => {
    for (const request of [['keep'], ['start'], ['step', 1]] as const) {
      expect(answered(request)).toBe('Done already, when it was asked before.');
    }
  });

  it('without its request an answer still says what it holds', () => {
    const alone = (...fields: Parts) => frameMeaning(encodeOk(7, fields).trimEnd(), 'fromBoard').meaning;
    expect(alone()).toBe('Done.');
    expect(alone(18_000)).toBe('Answered: 18000.');
    expect(alone('amberwick', 1, '1.1.0', 1, 'atmega328p', '00000000', '-', '-')).toMatch(
      /^An Amberwick board: .*no name\.$/,
    );
  });

  it('of another version are told as such, not misread', () => {
    expect(asked('weather', 5)).toBe('A request that this version does not know: weather 5.');
    expect(asked('dial', 'x')).toBe('A request that this version does not know: dial x.');
    expect(asked('constructor')).toBe('A request that this version does not know: constructor.');
    expect(answered(['beat'], 'soon')).toBe('An answer to "beat" that does not fit: ms is "soon".');
    expect(answered(['pause'], 1)).toBe('An answer to "pause" that does not fit: 1 fields too many.');
    expect(answered(['constructor'])).toBe('Done: "constructor".');
  });
});

describe('refusals', () => {
  it.each(CODES)('with code $code say "$reason"', ({ code, reason }) => {
    const refused = (place: number | null) => frameMeaning(encodeNo(7, code, place).trimEnd(), 'fromBoard');
    expect(refused(null)).toEqual({ meaning: `Refused: ${reason}.`, sound: true });
    expect(refused(40).meaning).toBe(`Refused: ${reason}, at byte 40.`);
  });

  it('of a newer firmware keep their own reason and number', () => {
    const text = '=07 no 77 - too windy';
    const crc = crc16(new TextEncoder().encode(text)).toString(16).toUpperCase().padStart(4, '0');
    expect(frameMeaning(`${text} ${crc}`, 'fromBoard').meaning).toBe('Refused: too windy (code 77).');
  });
});

describe('events', () => {
  const HEARD: readonly (readonly [readonly [string, ...Parts], string])[] = [
    [['hello', 1, 'power', '00'], 'The board started anew: power.'],
    [['lamps', 18_000, '21'], 'Lamps lit at 18.0 s: 0, 5.'],
    [['row', 12_500, 1, 3], 'Site 1 entered row 3 at 12.5 s.'],
    [['demand', 3020, 2], 'Input 2 asked for its turn at 3.02 s.'],
    [['fault', 5000, 1, 2], 'Site 1 went to its fault aspect at 5.0 s: no interval reached.'],
    [['gap', 6000], 'Events were merged or lost before 6.0 s: the line was full.'],
    [
      ['alone', 4_294_967_295],
      'The board heard no host until 4294967.295 s: overrides, holds, pauses and events have ended.',
    ],
    [
      ['guard', 7000, 2],
      'The guard of the board at 7.0 s: the kept table was damaged: the running one, which is the same, was kept anew.',
    ],
  ];

  it.each(HEARD)('%j says "%s"', (event, says) => {
    expect(told(...event)).toBe(says);
  });

  it('are all there', () => {
    expect(HEARD.map(([[word]]) => word)).toEqual(EVENTS.map(({ word }) => word));
  });

  it('a site that comes back', () => {
    expect(told('fault', 5000, 1, 0)).toBe('Site 1 came back from its fault aspect by itself at 5.0 s.');
  });

  it.each(FAULTS.filter(({ code }) => code !== 0))('fault $code says "$reason"', ({ code, reason }) => {
    expect(told('fault', 5000, 1, code)).toBe(`Site 1 went to its fault aspect at 5.0 s: ${reason}.`);
  });

  it('say the flags of a start, count long lists and admit what is new', () => {
    expect(told('hello', 1, 'watchdog', '81')).toBe(
      'The board started anew: watchdog. Flags: a table runs, name and identity are blank or damaged.',
    );
    expect(told('lamps', 0, '0')).toBe('Lamps lit at 0.0 s: none.');
    expect(told('lamps', 0, 'FFFF')).toBe('Lamps lit at 0.0 s: 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 4 more.');
    expect(told('weather', 5)).toBe('An event that this version does not know: weather 5.');
    expect(told('fault', 5000, 1, 9)).toContain('a fault that this version does not know');
  });
});

describe('what is no line', () => {
  it.each([
    ['?07 dial 2 0 18000 CB74', 'Noise: the line is damaged, its check sum is wrong.'],
    ['AT+RST', 'Noise: not a line of the protocol.'],
    ['', 'Noise: not a line of the protocol.'],
    ['?07 \x00\xff 1234', 'Noise: bytes that no line has.'],
    ['x'.repeat(120), 'Noise: too long for a line.'],
  ])('%j is noise', (text, meaning) => {
    for (const direction of ['toBoard', 'fromBoard'] as const) {
      expect(frameMeaning(text, direction)).toEqual({ meaning, sound: false });
    }
  });

  it('the lines of the protocol document are sound', () => {
    expect(frameMeaning('?07 dial 2 0 18000 CB73', 'toBoard')).toEqual({
      meaning: 'Set dial 0 of site 2 to 18.0 s.',
      sound: true,
    });
    expect(frameMeaning('=08 no 4 - outside limits F955', 'fromBoard').meaning).toBe('Refused: outside limits.');
  });

  it('an echo is not taken for talk', () => {
    expect(frameMeaning('?07 dial 2 0 18000 CB73', 'fromBoard').meaning).toBe(
      'An echo, not meant for this direction: Set dial 0 of site 2 to 18.0 s.',
    );
  });
});
