import { describe, expect, it } from 'vitest';
import type { LoaderLine } from '../../electron/host/loader/line.ts';
import { FrameRecorder } from '../../electron/host/service/frames.ts';
import { tapLoader } from '../../electron/host/service/loader-frames.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { encodeEvent, encodeOk, encodeRequest } from '../../shared/link/line.ts';
import { ask } from '../../shared/link/requests.ts';
import type { Frame } from '../../shared/workbench/contract.ts';
import { FakeBoard } from '../host/fake-board.ts';
import { FakeClock } from '../host/fake-clock.ts';
import { drop, FakeStream, garble, once, split } from '../host/fake-stream.ts';

const START = Date.parse('1965-06-01T19:00:00.000Z');
const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (char) => char.charCodeAt(0));
const said = (frames: readonly Frame[]): string[] =>
  frames.map(({ direction, meaning }) => `${direction === 'toBoard' ? '>' : '<'} ${meaning}`);

function overheard() {
  let at = START;
  const later = (ms: number): void => {
    at += ms;
  };
  const recorder = new FrameRecorder(() => new Date(at));
  const stream = new FakeStream();
  const tapped = recorder.tap(stream);
  const ask = (sequence: number, word: string, ...args: (string | number)[]): void =>
    tapped.write(bytesOf(encodeRequest(sequence, word, args)));
  const answer = (sequence: number, ...fields: (string | number)[]): void => stream.say(encodeOk(sequence, fields));
  /** One heartbeat and its answer. */
  const beat = (sequence: number, ms: number): void => {
    ask(sequence, 'beat');
    answer(sequence, ms);
  };
  return { recorder, stream, tapped, later, ask, answer, beat };
}

describe('what is recorded', () => {
  it('is every line both ways with its time and meaning, an answer with that of its request', () => {
    const { recorder, ask, answer, later, stream } = overheard();
    ask(7, 'dial', 2, 0, 18_000);
    later(5);
    answer(7, 18_000);
    stream.say(encodeEvent(3, 'row', [12_500, 1, 3]));
    expect(recorder.recent()).toEqual([
      {
        number: 1,
        at: '1965-06-01T19:00:00.000Z',
        direction: 'toBoard',
        text: 'opened',
        meaning: 'The port was opened.',
        sound: true,
      },
      {
        number: 2,
        at: '1965-06-01T19:00:00.000Z',
        direction: 'toBoard',
        text: '?07 dial 2 0 18000 CB73',
        meaning: 'Set dial 0 of site 2 to 18.0 s.',
        sound: true,
      },
      {
        number: 3,
        at: '1965-06-01T19:00:00.005Z',
        direction: 'fromBoard',
        text: '=07 ok 18000 416B',
        meaning: 'Dial 0 of site 2 is 18.0 s.',
        sound: true,
      },
      {
        number: 4,
        at: '1965-06-01T19:00:00.005Z',
        direction: 'fromBoard',
        text: expect.stringMatching(/^!03 row 12500 1 3 [0-9A-F]{4}$/),
        meaning: 'Site 1 entered row 3 at 12.5 s.',
        sound: true,
      },
    ]);
  });

  it('keeps the last 200 and counts on', () => {
    const { recorder, stream } = overheard();
    for (let row = 0; row < 250; row++) stream.say(encodeEvent(row, 'row', [row, 0, row]));
    const frames = recorder.recent();
    expect(frames.map(({ number }) => number)).toEqual(Array.from({ length: 200 }, (_, index) => 52 + index));
    expect(frames.at(-1)?.meaning).toBe('Site 0 entered row 249 at 0.249 s.');
  });

  it('tells opening and end, and goes on with the next opening', () => {
    const { recorder, stream, tapped } = overheard();
    stream.unplug();
    tapped.write(bytesOf(encodeRequest(1, 'who')));
    recorder.tap(new FakeStream());
    expect(recorder.recent().map(({ number, text, meaning }) => [number, text, meaning])).toEqual([
      [1, 'opened', 'The port was opened.'],
      [2, 'closed: The cable was pulled.', 'The connection ended. The cable was pulled.'],
      [3, 'opened', 'The port was opened.'],
    ]);
  });

  it('marks a request that is sent again, but not one of the same number later', () => {
    const { recorder, ask, answer } = overheard();
    ask(1, 'who');
    ask(1, 'who');
    answer(1, 'amberwick', 1, '1.1.0', 1, 'atmega328p', '00000000', '-', '-');
    ask(1, 'who');
    expect(said(recorder.recent())).toEqual([
      '> The port was opened.',
      '> Asks who is there.',
      '> Asks who is there. Sent again.',
      expect.stringMatching(/^< An Amberwick board/),
      '> Asks who is there.',
    ]);
  });

  it('has the messages of a boot loader as bytes', () => {
    const { recorder } = overheard();
    recorder.note('toBoard', Uint8Array.of(0x30, 0x20), 'Asks whether the boot loader listens.');
    recorder.note('fromBoard', new Uint8Array(133).fill(0xff), 'A page.');
    expect(recorder.recent().slice(1)).toMatchObject([
      { direction: 'toBoard', text: '30 20', meaning: 'Asks whether the boot loader listens.', sound: true },
      { direction: 'fromBoard', text: `${'FF '.repeat(15)}... FF (133 bytes)`, sound: true },
    ]);
  });
});

describe('noise', () => {
  it('is a damaged line', () => {
    const { recorder, stream } = overheard();
    stream.toHost = once(garble);
    stream.say(encodeOk(7, [18_000]));
    expect(recorder.recent().at(-1)).toMatchObject({
      text: expect.stringMatching(/^=07\$ok 18000 416B$/),
      meaning: 'Noise: the line is damaged, its check sum is wrong.',
      sound: false,
    });
  });

  it('that never ends becomes a frame after half a second', () => {
    const { recorder, stream, later } = overheard();
    stream.say('\x00\xffboot');
    later(499);
    expect(recorder.recent()).toHaveLength(1);
    later(1);
    expect(recorder.recent()[1]).toMatchObject({
      at: '1965-06-01T19:00:00.000Z',
      text: '\\x00\\xFFboot',
      meaning: 'Noise: 6 bytes without an end of line.',
      sound: false,
    });
  });

  it('comes before what is said after the pause', () => {
    const { recorder, stream, later, ask } = overheard();
    stream.say('boot');
    later(600);
    ask(1, 'who');
    expect(said(recorder.recent()).slice(1)).toEqual([
      '< Noise: 4 bytes without an end of line.',
      '> Asks who is there.',
    ]);
  });

  it('is told with the end of the stream, too', () => {
    const { recorder, stream } = overheard();
    stream.say('=0');
    stream.unplug();
    expect(said(recorder.recent()).slice(1)).toEqual([
      '< Noise: 2 bytes without an end of line.',
      '< The connection ended. The cable was pulled.',
    ]);
  });

  it('over the limit is cut at 120 bytes, and its rest is never taken for a line', () => {
    const { recorder, stream } = overheard();
    stream.say(`${'x'.repeat(120)}=07 ok 18000 416B\n=07 ok 18000 416B\n`);
    expect(recorder.recent().map(({ text, sound }) => [text.length, sound])).toEqual([
      [6, true],
      [120, false],
      [17, false],
      [17, true],
    ]);
  });

  it('begins at 120 characters: the longest line, even with a carriage return, is one', () => {
    const { recorder, stream } = overheard();
    const longest = encodeEvent(0, 'weather', ['f'.repeat(119 - 12 - 5)]).trimEnd();
    expect(longest).toHaveLength(119);
    stream.say(`${longest}\r\n`);
    expect(recorder.recent()[1]).toMatchObject({ text: longest, sound: true });
  });
});

describe('heartbeats', () => {
  it('answered one after another become one, with their count and the last time', () => {
    const { recorder, beat, later, stream } = overheard();
    stream.say(encodeEvent(0, 'hello', [1, 'power', '00']));
    for (let index = 0; index < 1000; index++) {
      beat(index & 0xff, index * 500);
      later(500);
      if (index % 10 === 0) stream.say(encodeEvent(index & 0xff, 'demand', [index, 0]));
    }
    const frames = recorder.recent();
    expect(frames).toHaveLength(104);
    expect(frames[1]?.meaning).toBe('The board started anew: power.');
    expect(frames.slice(-2).map(({ number, meaning }) => [number, meaning])).toEqual([
      [2101, 'Says that the host is there. 1000 beats, only the last is shown.'],
      [2102, 'The board time is 499.5 s. 1000 beats, only the last is shown.'],
    ]);
    expect(frames.map(({ number }) => number)).toEqual(frames.map(({ number }) => number).sort((a, b) => a - b));
  });

  it('leave looks at the supply together, too, each kind by itself', () => {
    const { recorder, beat, ask, answer } = overheard();
    for (let index = 0; index < 200; index++) {
      beat(index & 0xff, index * 500);
      ask(index & 0xff, 'supply');
      answer(index & 0xff, 5000 - index, 4900, 1090);
    }
    expect(said(recorder.recent()).slice(-4)).toEqual([
      '> Says that the host is there. 200 beats, only the last is shown.',
      '< The board time is 99.5 s. 200 beats, only the last is shown.',
      '> Asks for the supply. 200 looks at the supply, only the last is shown.',
      '< The supply is 4801 mV, lowest 4900 mV since it was asked last; reference 1090 mV. 200 looks at the supply, only the last is shown.',
    ]);
    expect(recorder.recent()).toHaveLength(5);
  });

  it('stay where one was not answered or had to be sent again', () => {
    const { recorder, beat, ask, answer } = overheard();
    beat(1, 500);
    beat(2, 1000);
    ask(3, 'beat');
    beat(4, 2000);
    ask(5, 'beat');
    ask(5, 'beat');
    answer(5, 2500);
    beat(6, 3000);
    beat(7, 3500);
    expect(said(recorder.recent()).slice(1)).toEqual([
      '> Says that the host is there. 2 beats, only the last is shown.',
      '< The board time is 1.0 s. 2 beats, only the last is shown.',
      '> Says that the host is there.',
      '> Says that the host is there.',
      '< The board time is 2.0 s.',
      '> Says that the host is there.',
      '> Says that the host is there. Sent again.',
      '< The board time is 2.5 s.',
      '> Says that the host is there. 2 beats, only the last is shown.',
      '< The board time is 3.5 s. 2 beats, only the last is shown.',
    ]);
  });
});

describe('the talk with a boot loader', () => {
  function loader() {
    const recorder = new FrameRecorder(() => new Date(START));
    const stream = new FakeStream();
    const line: LoaderLine = {
      write: (bytes) => stream.write(bytes),
      onData: (listener) => stream.onData(listener),
      onClose: (listener) => stream.onClose(listener),
      close: () => stream.close(),
      pulseReset: async () => true,
    };
    const tapped = tapLoader(recorder, line, 115_200);
    const talk = (toBoard: readonly number[], fromBoard: readonly number[]): void => {
      tapped.write(Uint8Array.from(toBoard));
      for (const byte of fromBoard) stream.say(String.fromCharCode(byte));
    };
    return { recorder, stream, tapped, talk };
  }

  // Bytes: AVR061.
  it('of version 1 is told message by message', async () => {
    const { recorder, stream, tapped, talk } = loader();
    await tapped.pulseReset();
    talk([0x30, 0x20], [0x14, 0x10]);
    talk([0x75, 0x20], [0x14, 0x1e, 0x95, 0x0f, 0x10]);
    talk([0x55, 0x80, 0x00, 0x20], [0x14, 0x10]);
    talk([0x64, 0x00, 0x80, 0x46, ...new Array(128).fill(0xff), 0x20], [0x14]);
    talk([0x74, 0x00, 0x80, 0x46, 0x20], [0x99]);
    talk([0x51, 0x20], []);
    stream.unplug();
    expect(said(recorder.recent())).toEqual([
      '> The port was opened at 115200 baud for the boot loader.',
      '> Reset the board.',
      '> Asks whether the boot loader listens.',
      '< The boot loader: done.',
      '> Asks for the signature of the chip.',
      '< The boot loader: 3 bytes.',
      '> Set the address to byte 256.',
      '< The boot loader: done.',
      '> Write a page of 128 bytes.',
      '< From the boot loader, not whole: 1 byte.',
      '> Asks for a page of 128 bytes.',
      '< From the boot loader, not as it should be: 1 byte.',
      '> Leave the boot loader.',
      '< The connection ended. The cable was pulled.',
    ]);
    expect(recorder.recent()[5]?.text).toBe('14 1E 95 0F 10');
  });

  // Bytes: AVR068.
  it('of version 2 is told message by message', () => {
    const { recorder, tapped, talk } = loader();
    const framed = (...body: number[]): number[] => {
      const message = [0x1b, 1, body.length >> 8, body.length & 0xff, 0x0e, ...body];
      return [...message, message.reduce((sum, byte) => sum ^ byte, 0)];
    };
    expect(framed(0x01)).toEqual([0x1b, 0x01, 0x00, 0x01, 0x0e, 0x01, 0x14]);
    talk(framed(0x01), framed(0x01, 0x00, 0x08));
    talk(framed(0x06, 0x80, 0x01, 0x00, 0x00), framed(0x06, 0x00));
    talk(framed(0x13, 0x01, 0x00), framed(0x13, 0xc0));
    talk(framed(0x14, 0x01, 0x00, 0x20), []);
    void tapped.close();
    expect(said(recorder.recent()).slice(1)).toEqual([
      '> Asks whether the boot loader listens.',
      '< The boot loader: done.',
      '> Set the address to byte 131072.',
      '< The boot loader: done.',
      '> Write a page of 256 bytes.',
      '< The boot loader refuses with C0.',
      '> Asks for a page of 256 bytes.',
      '< The connection ended. closed',
    ]);
  });
});

describe('for the log', () => {
  it('gives each line once', () => {
    const { recorder, ask, answer, later } = overheard();
    ask(7, 'dial', 2, 0, 18_000);
    later(1250);
    answer(7, 18_000);
    expect(recorder.news()).toEqual([
      '19:00:00.000 > opened  | The port was opened.',
      '19:00:00.000 > ?07 dial 2 0 18000 CB73  | Set dial 0 of site 2 to 18.0 s.',
      '19:00:01.250 < =07 ok 18000 416B  | Dial 0 of site 2 is 18.0 s.',
    ]);
    expect(recorder.news()).toEqual([]);
    ask(8, 'pause');
    expect(recorder.news()).toEqual([expect.stringMatching(/ \?08 pause [0-9A-F]{4} {2}\| Pause\.$/)]);
    expect(recorder.recent()).toHaveLength(4);
  });
});

describe('the one who talks', () => {
  it('notices nothing: the same bytes both ways, the same end', async () => {
    const board = new FakeBoard();
    board.stream.toHost = split;
    const clock = new FakeClock();
    const recorder = new FrameRecorder(() => new Date(START + clock.now()));
    const session = new BoardSession(recorder.tap(board.stream), { clock });
    const greeted = await session.greet();
    expect(greeted).toMatchObject({ ok: true, value: { firmware: '1.0.0' } });
    const beat = await session.request(ask.beat());
    expect(beat).toEqual({ ok: true, value: 1234 });
    expect(board.words()).toEqual(['who', 'beat']);
    board.stream.toBoard = once(drop);
    const pending = session.request(ask.beat());
    board.stream.unplug();
    expect(await pending).toEqual({ ok: false, error: { kind: 'ended', cause: 'The cable was pulled.' } });
    expect(session.ended).toBe('The cable was pulled.');
    expect(said(recorder.recent())).toEqual([
      '> The port was opened.',
      '> Asks who is there.',
      expect.stringMatching(/^< An Amberwick board/),
      '> Says that the host is there.',
      '< The board time is 1.234 s.',
      '> Says that the host is there.',
      '< The connection ended. The cable was pulled.',
    ]);
  });
});
