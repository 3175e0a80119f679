/** The device itself: each fault does what it says, to the byte that it names. */
import { describe, expect, it } from 'vitest';
import { seededDice } from '../fixtures/dice.ts';
import { FakeClock } from '../host/fake-clock.ts';
import { FakeStream } from '../host/fake-stream.ts';
import { CLUB_NIGHT, type FaultPlan, faultFrom, faultText, noFaults, random, scripted } from './faults.ts';
import { FaultyLine } from './faulty-line.ts';

const ascii = (text: string) => Uint8Array.from(text, (char) => char.charCodeAt(0));
const text = (bytes: Uint8Array) => String.fromCharCode(...bytes);

function rig(plan: FaultPlan) {
  const clock = new FakeClock();
  const board = new FakeStream();
  const told: string[] = [];
  const [heard, came]: [string[], string[]] = [[], []];
  const strike = (what: string) => () => void told.push(what);
  const line = new FaultyLine({ board, clock, plan, reset: strike('reset'), unplugged: strike('unplugged') });
  board.onBoard = (bytes) => heard.push(text(bytes));
  line.onData((bytes) => came.push(text(bytes)));
  line.onClose((cause) => told.push(cause));
  return { clock, board, line, heard, came, told };
}

/** What the board hears of `abcdef`, piece by piece. */
function toBoard(...faults: string[]): string[] {
  const { line, heard } = rig(scripted(...faults));
  line.write(ascii('abc'));
  line.write(ascii('def'));
  return heard;
}

describe('a line with faults', () => {
  it('without faults passes what it gets, as it gets it', () => {
    expect(toBoard()).toEqual(['abc', 'def']);
  });

  it('drops, flips and repeats the byte that is named', () => {
    expect(toBoard('drop byte 1 to the board')).toEqual(['ac', 'def']);
    expect(toBoard('flip byte 4 to the board, 2')).toEqual(['abc', 'daf']);
    expect(toBoard('repeat byte 0 to the board', 'repeat byte 5 to the board')).toEqual(['aabc', 'deff']);
    expect(toBoard('drop byte 1 to the host')).toEqual(['abc', 'def']);
  });

  it('splits, and delays a byte with all that follow it, so that none overtakes another', async () => {
    const { clock, board, line, came } = rig(scripted('split byte 0 to the host', 'delay byte 4 to the host, 40'));
    board.say('abc');
    expect(came).toEqual(['a']);
    await clock.advance(1);
    expect(came).toEqual(['a', 'bc']);
    board.say('def');
    board.say('ghi');
    expect(came).toEqual(['a', 'bc', 'd']);
    await clock.advance(39);
    expect(came).toEqual(['a', 'bc', 'd']);
    await clock.advance(1);
    expect(came).toEqual(['a', 'bc', 'd', 'ef', 'ghi']);
    expect(line.done.map(faultText)).toEqual(['split byte 0 to the host', 'delay byte 4 to the host, 40']);
  });

  it('resets the board before the byte, and pulls the cable for good', () => {
    const { board, line, heard, came, told } = rig(scripted('reset byte 1 to the board', 'unplug byte 4 to the board'));
    line.write(ascii('abc'));
    expect([heard, told]).toEqual([['a', 'bc'], ['reset']]);
    line.write(ascii('def'));
    line.write(ascii('ghi'));
    board.say('too late');
    expect(heard).toEqual(['a', 'bc', 'd']);
    expect(came).toEqual([]);
    expect(told).toEqual(['reset', 'The cable was pulled.', 'unplugged']);
  });

  it('does by chance what can be played again from its own words', () => {
    const every = random(seededDice(3), 0.2, { ...CLUB_NIGHT, unplug: 0, delay: 0, split: 0 });
    const first = rig(every);
    first.line.write(ascii('x'.repeat(500)));
    const words = first.line.done.map(faultText);
    expect(words.length).toBeGreaterThan(60);
    expect(words.map((word) => faultText(faultFrom(word)))).toEqual(words);
    const second = rig(scripted(...words));
    second.line.write(ascii('x'.repeat(500)));
    expect(second.heard).toEqual(first.heard);
    expect(rig(noFaults).line.done).toEqual([]);
  });
});
