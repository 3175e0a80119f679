import type { Load } from '../../shared/electrics/model.ts';
import { wireOf } from '../../shared/electrics/usual.ts';
import type { WireColour } from '../../shared/layout/electrics.ts';
import { likeThis, setCircuit, setPolarity, setSource, wireColour } from '../../shared/layout/wiring/details.ts';
import type { LampPlace } from '../../shared/layout/wiring/lamps.ts';
import { outputName } from '../../shared/layout/wiring/numbers.ts';
import type { Wired, Wiring } from '../model/wiring.ts';
import { Choice } from './choice.tsx';
import { type Change, LampFigures } from './lamp-figures.tsx';
import { WIRE_COLOURS } from './lamp-list.tsx';
import { WhatFlows } from './what-flows.tsx';
import { counted } from './words.ts';

interface Props {
  readonly wiring: Wiring;
  readonly wired: Wired;
  readonly lamp: LampPlace;
}

/** How the lamp at hand is made, wired and fed. Every change is one step of undo. */
export function LampDetails({ wiring, wired, lamp }: Props) {
  const load = wired.loads.get(lamp.path);
  const { layout, board } = wired;
  const told = lamp.lamp.electrics ?? {};
  const set = (change: Change): void => {
    void wiring.apply(setCircuit(layout, lamp.path, { ...told, ...change }));
  };
  return (
    <div class="lamp-details">
      <h3>{lamp.name}</h3>
      {load && <WhatFlows load={load} wired={wired} />}
      <div class="row">
        <button type="button" class="button" onClick={(event) => pickUp(wiring, lamp, event.currentTarget)}>
          {lamp.output === null ? 'Choose its output' : `Move it from ${outputName(board, lamp.output)}`}
        </button>
      </div>
      <Choice
        label="Wire"
        value={lamp.lamp.wire ?? 'usual'}
        choices={wireChoices(lamp, load)}
        onChoose={(colour) => void wiring.apply(wireColour(layout, lamp.path, colour === 'usual' ? undefined : colour))}
      />
      <Choice
        label="Light"
        value={lamp.lamp.source ?? 'led'}
        choices={[
          ['led', 'LED'],
          ['smallFilament', 'small filament lamp'],
          ['largeFilament', 'large filament lamp'],
        ]}
        onChoose={(source) => void wiring.apply(setSource(layout, lamp.path, source))}
      />
      <Choice
        label="Common wire"
        value={lamp.lamp.activeLow ? 'low' : 'high'}
        choices={[
          ['high', 'cathode: lit when high'],
          ['low', 'anode: lit when low'],
        ]}
        onChoose={(level) => void wiring.apply(setPolarity(layout, lamp.path, level === 'low'))}
      />
      <Choice
        label="Switched by"
        value={told.driver ?? 'direct'}
        choices={[
          ['direct', 'the output itself'],
          ['transistor', 'a transistor behind it'],
          ['power-register', 'a power shift register'],
        ]}
        onChoose={(driver) => set({ driver: driver === 'direct' ? undefined : driver })}
      />
      <LampFigures told={told} load={load} set={set} />
      <Likewise wiring={wiring} wired={wired} lamp={lamp} />
    </div>
  );
}

/** Picked up with a button: the keyboard goes to the slot that it comes from. */
function pickUp(wiring: Wiring, lamp: LampPlace, button: HTMLElement): void {
  wiring.pickUp(lamp.path);
  const board = button.closest('.wiring')?.querySelector('.pin-board');
  const from = board?.querySelector<HTMLElement>(`[data-output="${lamp.output}"]`);
  (from ?? board?.querySelector<HTMLElement>('.slot.free, .slot.lamp'))?.focus();
}

function wireChoices(lamp: LampPlace, load: Load | undefined): (readonly [WireColour | 'usual', string])[] {
  const { wire: _, ...plain } = lamp.lamp;
  const usual = wireOf(plain, load?.colour ?? '', lamp.path);
  return [['usual', `${usual}, as usual`], ...WIRE_COLOURS.map((colour) => [colour, colour] as const)];
}

/** The same for other lamps of this colour, on this site and on this board. */
function Likewise({ wiring, wired, lamp }: Props) {
  const { layout, loads } = wired;
  const colour = loads.get(lamp.path)?.colour;
  if (!colour) return null;
  const others = wired.lamps.filter((it) => it.path !== lamp.path && loads.get(it.path)?.colour === colour);
  const near = others.filter(({ site }) => site === lamp.site);
  const groups = [
    { where: 'on this site', lamps: near },
    { where: 'on this board', lamps: others },
  ].filter((group, index, all) => group.lamps.length > 0 && group.lamps.length !== all[index - 1]?.lamps.length);
  return (
    <div class="row">
      {groups.map((group) => (
        <button
          key={group.where}
          type="button"
          class="button"
          onClick={() => {
            const paths = group.lamps.map(({ path }) => path);
            void wiring.apply(likeThis(layout, lamp.path, paths));
          }}
        >
          Same for {counted(group.lamps.length, `other ${colour} lamp`)} {group.where}
        </button>
      ))}
    </div>
  );
}
