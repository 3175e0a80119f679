import { describe, expect, it } from 'vitest';
import { encodeNo, encodeOk, encodeRequest, parseLine } from '../../shared/link/line.ts';
import { ask, type Request, readAnswer } from '../../shared/link/requests.ts';
import { LINK, VERBS } from '../../shared/link/vocabulary.ts';

/** The answer to a request as it comes off the line. */
function answer<T>(request: Request<T>, line: string) {
  const parsed = parseLine(line.trimEnd());
  if (parsed.kind !== 'answer') throw new Error('not an answer');
  return readAnswer(request, parsed);
}

const told = <T>(request: Request<T>, ...fields: (string | number)[]) => answer(request, encodeOk(1, fields));
const spoken = (request: Request<unknown>) => [request.word, ...request.args].join(' ');

describe('requests as they are spoken', () => {
  it('are those of the protocol', () => {
    expect(
      [
        ask.who(),
        ask.begin(320, 0x29b1),
        ask.part(16, Uint8Array.of(0, 0xab, 255)),
        ask.sum('kept'),
        ask.read('run', 64),
        ask.dial(2, 0),
        ask.dial(2, 0, 18_000),
        ask.cycle(1, 60_000),
        ask.again(),
        ask.again(3),
        ask.hold(3, true),
        ask.lamp('all', 'auto'),
        ask.lamp(7, 'on'),
        ask.master('safe'),
        ask.press(1, 'off'),
        ask.tell(true),
        ask.label('00c0ffee', 'Penmarrow'),
        ask.label('00C0FFEE', ''),
        ask.lamp(7, 'on', 150),
        ask.pulse(19, true, 500),
        ask.pulse(130, false, 1),
        ask.probe(14, true),
        ask.probe(19, false),
        ask.supply(),
        ask.meter(4970),
      ].map(spoken),
    ).toEqual([
      'who',
      'begin 320 29B1',
      'part 16 00ABFF',
      'sum kept',
      'read run 64',
      'dial 2 0',
      'dial 2 0 18000',
      'dial 129 0 60000',
      'again',
      'again 3',
      'hold 3 1',
      'lamp all auto',
      'lamp 7 on',
      'master safe',
      'press 1 off',
      'tell 1',
      'label 00C0FFEE 50656E6D6172726F77',
      'label 00C0FFEE -',
      'lamp 7 on 150',
      'pulse 19 1 500',
      'pulse 130 0 1',
      'probe 14 1',
      'probe 19 0',
      'supply',
      'meter 4970',
    ]);
  });

  it('exist for every word, quick and slow as the protocol says', () => {
    const built: Request<unknown>[] = [
      ask.who(),
      ask.caps(),
      ask.state(),
      ask.begin(1, 2),
      ask.part(0, Uint8Array.of(1)),
      ask.start(),
      ask.drop(),
      ask.sum('run'),
      ask.read('run', 0),
      ask.dial(0, 0),
      ask.keep(),
      ask.back(),
      ask.erase(),
      ask.run(),
      ask.pause(),
      ask.step(0),
      ask.again(),
      ask.hold(0, false),
      ask.lamp(0, 'off'),
      ask.master('auto'),
      ask.press(0, 'on'),
      ask.inputs(),
      ask.tell(false),
      ask.snap(),
      ask.site(0),
      ask.label('00000000', ''),
      ask.beat(),
      ask.pulse(2, true, 100),
      ask.probe(2, true),
      ask.supply(),
      ask.meter(5000),
      ask.guard(),
    ];
    expect(built.map(({ word, slow, once }) => ({ word, slow, once }))).toEqual(
      VERBS.map(({ word, slow, once }) => ({ word, slow, once })),
    );
  });

  it('fit the longest line, the largest of them included', () => {
    const longest = [
      ask.part(2015, new Uint8Array(LINK.partBytes).fill(255)),
      ask.label('FFFFFFFF', 'é'.repeat(8)),
      ask.dial(159, 14, 32_767_000),
    ];
    for (const { word, args } of longest) {
      expect(encodeRequest(255, word, args).length).toBeLessThanOrEqual(LINK.requestLine);
    }
  });

  it('cut a long name between characters', () => {
    // Fifteen letters and one of two bytes: the last would end in byte 17.
    expect(ask.label('00000001', 'Penmarrow Junc.é').args[1]).toBe('50656E6D6172726F77204A756E632E');
  });
});

describe('answers', () => {
  it('identify the board, also one of a later firmware with more fields', () => {
    const value = {
      protocol: 1,
      firmware: '1.0.0',
      store: 1,
      chip: 'atmega328p',
      identity: '00C0FFEE',
      shape: 0xbeef,
      name: 'Penmarrow',
    };
    const fields = ['amberwick', 1, '1.0.0', 1, 'atmega328p', '00C0FFEE', 'BEEF', '50656E6D6172726F77'];
    expect(told(ask.who(), ...fields)).toEqual({ ok: true, value });
    expect(told(ask.who(), ...fields, 'later', 9)).toEqual({ ok: true, value });
    expect(told(ask.who(), 'amberwick', 1, '1.0.0', 1, 'atmega328p', '00000000', '-', '-')).toEqual({
      ok: true,
      value: { ...value, identity: '00000000', shape: null, name: '' },
    });
  });

  it('do not take another device for a board', () => {
    expect(told(ask.who(), 'printer', 1, '1.0.0', 1, 'x', '00000000', '-', '-').ok).toBe(false);
  });

  it('tell capacities and state', () => {
    expect(told(ask.caps(), 480, 64, 16, 16, 4, 16, 8, 64, 16, 32)).toEqual({
      ok: true,
      value: {
        image: 480,
        lamps: 64,
        sites: 16,
        inputs: 16,
        groups: 4,
        programs: 16,
        chips: 8,
        request: 64,
        part: 16,
        read: 32,
      },
    });
    expect(told(ask.state(), 86_400, 'watchdog', 4980, 312, 'night', '43', 2, 17)).toEqual({
      ok: true,
      value: {
        seconds: 86_400,
        cause: 'watchdog',
        millivolts: 4980,
        stack: 312,
        master: 'night',
        flags: new Set(['table', 'unkept', 'storeFault']),
        badLines: 2,
        keeps: 17,
      },
    });
  });

  it('give sums, bytes and values in force', () => {
    expect(told(ask.sum('run'), 97, '0A0B', 'FFFF')).toEqual({
      ok: true,
      value: { length: 97, crc: 0x0a0b, shape: 0xffff },
    });
    expect(told(ask.read('run', 32), 32, '01FF')).toEqual({
      ok: true,
      value: { offset: 32, bytes: Uint8Array.of(1, 255) },
    });
    expect(told(ask.dial(2, 0, 18_000), 18_000)).toEqual({ ok: true, value: 18_000 });
    expect(told(ask.beat(), 4_294_967_295)).toEqual({ ok: true, value: 4_294_967_295 });
  });

  it('give lamps, inputs and demands by their bits', () => {
    const off = [false, false, false, false];
    expect(told(ask.snap(), 5000, '21', '0', 'run', '01')).toEqual({
      ok: true,
      value: {
        ms: 5000,
        lit: [true, false, false, false, false, true, false, false],
        demands: off,
        master: 'run',
        flags: new Set(['table']),
      },
    });
    expect(told(ask.inputs(), '8', '0')).toEqual({
      ok: true,
      value: { levels: [false, false, false, true], demands: off },
    });
    expect(told(ask.site(1), 4, -200, '05', 0)).toEqual({
      ok: true,
      value: { row: 4, elapsed: -200, flags: new Set(['held', 'waiting']), fault: 'none' },
    });
  });

  it('give what a pin and the supply measure, with null for what was not measured', () => {
    expect(told(ask.probe(14, true), 1, 371, 1017)).toEqual({ ok: true, value: { level: 1, rest: 371, lit: 1017 } });
    expect(told(ask.probe(2, true), 0, '-', '-')).toEqual({ ok: true, value: { level: 0, rest: null, lit: null } });
    expect(told(ask.probe(14, false), '-', 0, 12)).toEqual({ ok: true, value: { level: null, rest: 0, lit: 12 } });
    expect(told(ask.probe(14, true), 2, 0, 0)).toEqual({
      ok: false,
      error: { kind: 'misunderstood', what: 'level is "2"' },
    });
    expect(told(ask.supply(), 4987, 4820, '-')).toEqual({
      ok: true,
      value: { millivolts: 4987, least: 4820, reference: null },
    });
    expect(told(ask.supply(), 4987, 4820, 1084)).toEqual({
      ok: true,
      value: { millivolts: 4987, least: 4820, reference: 1084 },
    });
    expect(told(ask.supply(), 4987, '-', 1084).ok).toBe(false);
    expect(told(ask.meter(5000), 1093)).toEqual({ ok: true, value: 1093 });
  });

  it('to a repeated word that is done once have no fields and are fine', () => {
    for (const request of [ask.start(), ask.keep(), ask.step(0)]) {
      expect(told<unknown>(request)).toEqual({ ok: true, value: null });
    }
  });

  it('that are refusals carry code, reason and cure', () => {
    expect(answer(ask.start(), encodeNo(1, 29, 57))).toEqual({
      ok: false,
      error: {
        kind: 'refused',
        code: 29,
        key: 'conflict',
        reason: 'conflicting lamps lit together',
        cure: 'Check the stages: two conflicting phases are green together.',
        place: 57,
      },
    });
  });

  it('that do not fit the question are errors that name the field', () => {
    expect(told(ask.dial(0, 0))).toEqual({ ok: false, error: { kind: 'misunderstood', what: 'ms is missing' } });
    expect(told(ask.dial(0, 0), 'soon')).toEqual({ ok: false, error: { kind: 'misunderstood', what: 'ms is "soon"' } });
    expect(told(ask.hold(0, true), 1)).toEqual({
      ok: false,
      error: { kind: 'misunderstood', what: '1 fields too many' },
    });
    expect(told(ask.snap(), 5, '1', '0', 'dusk', '01').ok).toBe(false);
  });
});
