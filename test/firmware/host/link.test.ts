import { describe, expect, it } from 'vitest';
import { encodeRequest, parseLine } from '../../../shared/link/line.ts';
import { imageCrc, imageShape } from '../../../shared/table/shape.ts';
import { seededDice } from '../../fixtures/dice.ts';
import { board, program, after as showing, site } from '../../fixtures/sites/build.ts';
import { pedestrianStage } from '../../fixtures/sites/pedestrian-stage.ts';
import { twoStage } from '../../fixtures/sites/two-stage.ts';
import { zebra } from '../../fixtures/sites/zebra.ts';
import { answers, between, changes, events, hex, hex4, imageOf, play, upload } from './play.ts';

const junction = imageOf(twoStage);
const shape = (image: Uint8Array) => hex4(imageShape(image) ?? 0);
const rx = (text: string) => `rx ${hex(Buffer.from(text, 'latin1'))}`;
const line = (sequence: number, text: string) => {
  const [word = '', ...args] = text.split(' ');
  return rx(encodeRequest(sequence, word, args));
};
const sent = (lines: readonly string[]) => lines.filter((text) => text.startsWith('> ')).map((text) => text.slice(2));

describe('answers', () => {
  it('have the right CRC and the sequence number of their request, over a real wire', async () => {
    const words = ['who', 'caps', 'state', 'snap', 'site 0', 'read run 0', 'inputs', 'beat', 'dial 0 4', 'nonsense'];
    const lines = await play([
      `table ${hex(junction)}`,
      'wire 1',
      ...words.flatMap((word, i) => [line(0xa0 + i, word), 'run 60']),
    ]);
    const parsed = sent(lines).map(parseLine);
    expect(parsed.map((one) => (one.kind === 'answer' ? one.sequence : one))).toEqual([
      expect.objectContaining({ kind: 'event', word: 'hello' }),
      ...words.map((_, i) => 0xa0 + i),
    ]);
    expect(answers(lines)).toEqual([
      `ok amberwick 1 1.2.0 1 atmega328p 00000000 ${shape(junction)} -`,
      'ok 480 64 16 16 4 16 8 64 16 32',
      expect.stringMatching(/^ok 0 power 5006 400 run 81 0 1$/),
      expect.stringMatching(/^ok \d+ 0C 0 run 81$/),
      expect.stringMatching(/^ok 0 \d+ 00 0$/),
      `ok 0 ${hex(junction.subarray(0, 32))}`,
      'ok 0 0',
      expect.stringMatching(/^ok \d+$/),
      'ok 1000',
      'no 1 - unknown word',
    ]);
  });

  it('name what is wrong with a request', async () => {
    const wrong: readonly [string, string][] = [
      ['dial 0 0 6999', 'no 4 - outside limits'],
      ['dial 0 0 120001', 'no 4 - outside limits'],
      ['dial 0 5', 'no 3 - no such number'],
      ['dial 1 0', 'no 3 - no such number'],
      ['dial 128 0', 'no 3 - no such number'],
      ['dial 0', 'no 2 - bad arguments'],
      ['dial 0 0 7000 1', 'no 2 - bad arguments'],
      ['dial  0 0', 'no 2 - bad arguments'],
      ['dial 0 0 99999999999', 'no 2 - bad arguments'],
      ['site 1', 'no 3 - no such number'],
      ['lamp 6 on', 'no 3 - no such number'],
      ['lamp 5 maybe', 'no 2 - bad arguments'],
      ['press 0 on', 'no 3 - no such number'],
      ['master dim', 'no 2 - bad arguments'],
      ['hold 0 2', 'no 2 - bad arguments'],
      ['read run 500', 'no 3 - no such number'],
      ['start', 'no 7 - no upload begun'],
      ['part 0 00', 'no 7 - no upload begun'],
      ['begin 481 0000', 'no 8 - too long'],
      ['begin 20 12G4', 'no 2 - bad arguments'],
      ['label 1234567 41', 'no 2 - bad arguments'],
      ['who now', 'no 2 - bad arguments'],
    ];
    const lines = await play([`table ${hex(junction)}`, ...wrong.map(([request]) => `ask ${request}`)]);
    expect(answers(lines)).toEqual(wrong.map(([, answer]) => answer));
  });

  it('round a time to the nearest that the board can hold', async () => {
    const lines = await play([`table ${hex(junction)}`, 'ask dial 0 0 17994', 'ask dial 0 0 17995', 'ask dial 0 0']);
    expect(answers(lines)).toEqual(['ok 17990', 'ok 18000', 'ok 18000']);
  });
});

describe('repeats', () => {
  it('of a step, an upload or a keep do nothing twice', async () => {
    const lines = await play([
      `table ${hex(junction)}`,
      'run 100',
      line(1, 'step 0'),
      'run 5',
      line(1, 'step 0'),
      'run 5',
      'ask site 0',
      line(2, 'keep'),
      'run 2500',
      line(2, 'keep'),
      'run 2500',
      'ask state',
    ]);
    expect(answers(lines)).toEqual([
      'ok 0',
      'ok',
      // The second interval of the junction, entered by the first of the two lines.
      'ok 1 8 00 0',
      'ok 2',
      'ok',
      'ok 5 power 5006 400 run 81 0 2',
    ]);
  });

  it('give a refusal its code again, and are forgotten when the host falls silent', async () => {
    const lines = await play([
      `table ${hex(junction)}`,
      line(1, 'step 9'),
      'run 5',
      line(1, 'step 9'),
      'run 5',
      line(2, 'step 0'),
      'run 5100',
      line(2, 'step 0'),
      'run 5',
    ]);
    expect(answers(lines)).toEqual(['no 3 - no such number', 'no 3 - no such number', 'ok 0', 'ok 3']);
  });

  it('of slow work that goes on are answered once; other slow work has to wait', async () => {
    const lines = await play([
      `table ${hex(junction)}`,
      line(7, 'keep'),
      'run 50',
      line(7, 'keep'),
      line(8, 'label 00000001 41'),
      line(9, 'beat'),
      'run 2500',
    ]);
    expect(
      sent(lines)
        .slice(1)
        .map((text) => text.slice(0, -5)),
    ).toEqual(['=08 no 6 - busy', '=09 ok 52', '=07 ok 2']);
  });

  it('and disorder in the parts of an upload are harmless', async () => {
    const image = imageOf(zebra);
    const parts = upload(image).filter((command) => command.startsWith('ask part'));
    const mixed = [...parts].reverse().flatMap((part) => [part, 'run 100', part, 'run 100']);
    const lines = await play([
      'eeprom blank',
      'on',
      `ask begin ${image.length} ${hex4(imageCrc(image))}`,
      'run 20',
      ...mixed.slice(0, -4),
      'ask start',
      'run 50',
      ...mixed.slice(-4),
      'ask start',
      'run 50',
    ]);
    expect(answers(lines)).toContain('no 9 - not whole');
    expect(answers(lines).at(-1)).toBe(`ok ${shape(image)}`);
  });
});

describe('a bad image', () => {
  it('is refused with a code and a place, and the old table runs on', async () => {
    const image = imageOf(pedestrianStage);
    const both = image.slice();
    // The first lamp gets the second one's pin.
    both[12] = both[14] ?? 0;
    const plain = changes(await play([`table ${hex(junction)}`, 'run 20000']));
    const lines = await play([`table ${hex(junction)}`, ...upload(both), 'run 20000']);
    expect(answers(lines).at(-1)).toBe('no 31 14 pin used twice');
    expect(changes(lines)).toEqual(expect.arrayContaining(plain));
  });
});

describe('noise on the line', () => {
  const story = ['company 1', `table ${hex(imageOf(zebra))}`, 'wire 1', 'say start'];

  it('changes no lamp, and the link is there again with the next line', async () => {
    const seed = 20_250_101;
    console.info(`noise seed ${seed}`);
    const dice = seededDice(seed);
    const noise = Array.from({ length: 200 }, () => {
      const bytes = Uint8Array.from({ length: dice.int(1, 90) }, () => dice.int(0, 255));
      const cut = encodeRequest(dice.int(0, 255), 'dial', [0, 0, 300]).slice(0, dice.int(1, 12));
      return [`rx ${hex(bytes)}`, rx(cut), 'run 40', rx('\n'), 'run 10', 'ask beat', 'run 20'];
    }).flat();
    const quiet = noise.map((command) => (command.startsWith('run') ? command : ''));
    const [loud, still] = [await play([...story, ...noise]), await play([...story, ...quiet])];
    expect(changes(loud)).toEqual(changes(still));
    expect(changes(still).length).toBeGreaterThan(30);
    expect(answers(loud).filter((answer) => /^ok \d+$/.test(answer))).toHaveLength(200);
  });

  it('is counted, line by line: wrong CRC, too long, other bytes', async () => {
    const good = encodeRequest(1, 'dial', [0, 0, 300]);
    const lines = await play([
      ...story,
      rx(good.replace('300', '310')),
      'run 20',
      rx(`${'x'.repeat(64)}\n`),
      'run 20',
      rx(good.replace('dial', 'di\tal')),
      'run 20',
      rx(good.replace('\n', '\r\n')),
      'run 20',
      'ask state',
      'run 30',
      'ask dial 0 0',
      'run 30',
    ]);
    expect(answers(lines)).toEqual(['ok 300', 'ok 0 power 5006 400 run 83 3 1', 'ok 300']);
  });

  it.each(Array.from({ length: 17 }, (_, cut) => cut + 1))(
    'a request cut after %i characters is dropped',
    async (cut) => {
      const whole = encodeRequest(1, 'master', ['off']);
      const lines = await play([...story, rx(`${whole.slice(0, cut)}\n`), 'run 20', 'ask snap', 'run 40']);
      expect(answers(lines)).toEqual([expect.stringMatching(/^ok \d+ \w+ 0 run 81$/)]);
    },
  );
});

describe('a nudge', () => {
  it('counts within 10 ms of the last byte of its line', async () => {
    // 17.9 s into a green of 18 s it becomes 17 s: the green ends at once.
    const request = encodeRequest(1, 'dial', [0, 0, 17_000]);
    const onWire = Math.ceil((request.length * 10 * 1000) / 57_600);
    const lines = await play([`table ${hex(junction)}`, 'wire 1', 'run 17900', rx(request), 'run 60']);
    const [, end = ''] = changes(lines);
    expect(end).toMatch(/ 0A$/);
    expect(Number.parseInt(end, 10) - 17_900).toBeLessThanOrEqual(onWire + 10);
    expect(answers(lines)).toEqual(['ok 17000']);
  });
});

describe('a host that falls silent', () => {
  it('loses overrides, holds, pauses, presses, master state, events and upload after 5 s', async () => {
    const lines = await play([
      `table ${hex(imageOf(pedestrianStage))}`,
      'ask tell 1',
      'ask lamp 0 on',
      'ask hold 0 1',
      'ask pause',
      'ask press 0 on',
      'ask master night',
      'ask begin 100 1234',
      'run 20',
      'ask state',
      'say silent',
      'run 4999',
      'say five',
      'run 1',
      'say gone',
      'ask state',
      'ask site 0',
    ]);
    expect(answers(between(lines, 'silent')).slice(0, 1)).toEqual(['ok 5 power 5006 400 run 81 0 1']);
    expect(answers(lines)).toContain('ok 0 power 5006 400 night AD 0 1');
    expect(events(between(lines, 'silent', 'five'))).toEqual([]);
    expect(events(between(lines, 'five', 'gone'))).toEqual(['alone 5020']);
    expect(answers(lines).at(-1)).toMatch(/^ok 0 \d+ 00 0$/);
  });
});

describe('events', () => {
  it('tell lamps and intervals as they come', async () => {
    const lines = await play([`table ${hex(junction)}`, 'company 1', 'run 10', 'ask tell 1', 'run 18010']);
    expect(events(lines)).toEqual(['hello 1 power 81', 'row 18000 0 1', 'lamps 18000 0A']);
  });

  it('merge when the line is full, mark the gap, and go on', async () => {
    // Eight sites that change every 10 ms have more to tell than 57,600 baud carry.
    const restless = board({
      programs: [
        program({
          name: 'restless',
          heads: ['lamp R'],
          dials: { time: [10, 1000] },
          fault: '.',
          safe: '.',
          rows: [showing(0, 'R'), showing(0, '.')],
        }),
      ],
      sites: Array.from({ length: 8 }, (_, i) => site(`place ${i}`, { dials: [10] })),
    });
    const lines = await play([
      `table ${hex(imageOf(restless))}`,
      'company 1',
      'wire 1',
      'ask tell 1',
      'run 600',
      ...Array.from({ length: 8 }, (_, i) => [`ask hold ${i} 1`, 'run 60']).flat(),
      'say held',
      'run 400',
      'ask snap',
      'run 50',
    ]);
    const told = events(lines);
    expect(told.filter((event) => event.startsWith('gap ')).length).toBeGreaterThan(0);
    // All answers came in spite of that, and what was told last is what is lit.
    expect(answers(lines).filter((answer) => answer === 'ok')).toHaveLength(9);
    const lit = /^lamps \d+ (\w+)$/.exec(told.filter((event) => event.startsWith('lamps')).at(-1) ?? '')?.[1];
    expect(answers(lines).at(-1)).toMatch(new RegExp(`^ok \\d+ ${lit} 0 run 81$`));
    for (let i = 0; i < 8; i += 1)
      expect(told.some((event) => event.startsWith('row ') && event.split(' ')[2] === `${i}`)).toBe(true);
    const numbers = sent(lines)
      .filter((text) => text.startsWith('!'))
      .map((text) => Number.parseInt(text.slice(1, 3), 16));
    expect(numbers).toEqual(numbers.map((_, i) => i & 0xff));
  });
});
