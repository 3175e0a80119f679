import type { ComponentChildren } from 'preact';
import type { Offer } from '../../shared/layout/new-site/offers.ts';
import { LETTERS } from '../plan/lamp.tsx';

interface Bulb {
  readonly x: number;
  readonly y: number;
  readonly colour: string;
  readonly isLit: boolean;
}

/** Radius of a lamp and from one to the next, in units of the picture: 150 by 72. */
const R = 9;
const PITCH = 21;
const MIDDLE = { x: 75, y: 36 };

/** What the lamps show in the picture: numbers of those that are lit, counted through all heads. */
const LIT: Readonly<Record<string, readonly number[]>> = {
  crossroads: [2, 3],
  't-junction': [0, 5],
  'crossroads-foot': [0, 3, 7],
  zebra: [0],
  pelican: [0, 4],
  crossing: [2, 3],
  shuttle: [2, 3],
  'level-crossing': [1],
  'colour-light-2': [0],
  'colour-light-3': [1],
  'colour-light-4': [0, 2],
  'street-lamps': [0, 1, 3],
  indicators: [0, 1],
  beacons: [0],
  fire: [0, 1],
  welding: [0],
};

/** The heads of an offer, as large as its card has room for. */
export function Picture({ offer }: { readonly offer: Offer }) {
  return (
    <svg class="offer-picture" viewBox="0 0 150 72" aria-hidden="true">
      {draw(offer)}
    </svg>
  );
}

function draw(offer: Offer): ComponentChildren {
  const bulbs = (at: (index: number, count: number) => { x: number; y: number }): Bulb[] =>
    offer.heads.flat().map((colour, index, all) => ({
      ...at(index, all.length),
      colour,
      isLit: LIT[offer.id]?.includes(index) ?? false,
    }));
  const inRow = (y: number, apart: number) => (index: number, count: number) => ({
    x: MIDDLE.x + (index - (count - 1) / 2) * apart,
    y,
  });
  switch (offer.kind) {
    case 'zebra':
      return <Beacons bulbs={bulbs(inRow(20, 76))} />;
    case 'level-crossing':
      return (
        <CrossingHead
          bulbs={bulbs(
            (index) =>
              [
                { x: 75, y: 52 },
                { x: 54, y: 26 },
                { x: 96, y: 26 },
              ][index] ?? MIDDLE,
          )}
        />
      );
    case 'street-lamps':
      return <Street bulbs={bulbs(inRow(24, 33))} />;
    case 'indicators':
    case 'beacons':
    case 'flicker':
      return <Board bulbs={bulbs(inRow(MIDDLE.y, 30))} />;
    default:
      return <Heads offer={offer} />;
  }
}

/** Heads laid down, the top of each at the left: a card is wider than it is high. A third one stands beside the two. */
function Heads({ offer }: { readonly offer: Offer }) {
  const rows = Math.min(2, offer.heads.length);
  const isFull = offer.heads.length > 2;
  let number = 0;
  return (
    <>
      {offer.heads.map((colours, head) => {
        const isBeside = head > 1;
        const middle = isBeside ? 117 : isFull ? 49 : MIDDLE.x;
        const y = isBeside ? MIDDLE.y : MIDDLE.y + (head - (rows - 1) / 2) * 32;
        const left = middle - ((colours.length - 1) * PITCH) / 2;
        const bulbs = colours.map((colour, index): Bulb => {
          const isLit = LIT[offer.id]?.includes(number) ?? false;
          number += 1;
          return { x: left + index * PITCH, y, colour, isLit };
        });
        const right = left + (colours.length - 1) * PITCH + R + 4;
        return (
          <g key={head}>
            {!isFull && <rect class="stem" x={right} y={y - 1.5} width={20} height={3} />}
            {!isFull && <circle class="post-foot" cx={right + 20} cy={y} r={4} />}
            <rect
              class="backboard"
              x={left - R - 4}
              y={y - R - 4}
              width={right - left + R + 4}
              height={2 * R + 8}
              rx={R + 4}
            />
            <Bulbs bulbs={bulbs} />
          </g>
        );
      })}
    </>
  );
}

function Beacons({ bulbs }: { readonly bulbs: readonly Bulb[] }) {
  return (
    <>
      {[-2, -1, 0, 1, 2].map((bar) => (
        <rect key={bar} class="offer-bar" x={MIDDLE.x + bar * 11 - 3} y={42} width={6} height={24} />
      ))}
      {bulbs.map(({ x }) => (
        <g key={x} class="beacon">
          {[0, 1, 2, 3, 4].map((band) => (
            <rect
              key={band}
              class={band % 2 === 0 ? 'band white' : 'band black'}
              x={x - 2.5}
              y={29 + band * 7}
              width={5}
              height={7}
            />
          ))}
        </g>
      ))}
      <Bulbs bulbs={bulbs} />
    </>
  );
}

function CrossingHead({ bulbs }: { readonly bulbs: readonly Bulb[] }) {
  return (
    <>
      <path class="backboard" d="M39 11 H111 V41 L89 67 H61 L39 41 Z" />
      <Bulbs bulbs={bulbs} />
    </>
  );
}

function Street({ bulbs }: { readonly bulbs: readonly Bulb[] }) {
  return (
    <>
      {bulbs.map(({ x, y }) => (
        <rect key={x} class="stem" x={x - 1.5} y={y} width={3} height={42} />
      ))}
      <rect class="offer-kerb" x={12} y={66} width={126} height={2} />
      <Bulbs bulbs={bulbs} />
    </>
  );
}

function Board({ bulbs }: { readonly bulbs: readonly Bulb[] }) {
  const half = (bulbs.length - 1) * 15 + R + 9;
  return (
    <>
      <rect class="backboard" x={MIDDLE.x - half} y={MIDDLE.y - 18} width={2 * half} height={36} rx={12} />
      <Bulbs bulbs={bulbs} />
    </>
  );
}

function Bulbs({ bulbs }: { readonly bulbs: readonly Bulb[] }) {
  return (
    <>
      {bulbs.map(({ x, y, colour, isLit }) => (
        <g key={`${x} ${y}`} class="lamp" data-colour={colour} data-look={isLit ? 'lit' : 'dark'}>
          <circle class="bulb" cx={x} cy={y} r={R} />
          <text class="letter" x={x} y={y} dy="0.355em" font-size={14}>
            {LETTERS[colour] ?? '·'}
          </text>
        </g>
      ))}
    </>
  );
}
