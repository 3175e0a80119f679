import { useComputed } from '@preact/signals';
import type { Output } from '../../shared/layout/wiring/outputs.ts';
import { usePanel } from '../model/context.ts';
import { takesLamp, type Wiring } from '../model/wiring.ts';
import { SlotMark } from './slot-mark.tsx';
import { colourOf, outputWords } from './words.ts';

interface Props {
  readonly wiring: Wiring;
  readonly output: Output;
  /** The one that the keyboard reaches first. */
  readonly isEntry: boolean;
}

/** One output of the board, with what hangs on it. */
export function Slot({ wiring, output, isEntry }: Props) {
  const { model } = usePanel();
  const { use } = output;
  const lamp = use.is === 'lamp' ? use.lamp : null;
  const load = lamp ? wiring.wired.value?.loads.get(lamp.path) : undefined;
  const look = useComputed(() => (load ? model.board(wiring.board.value).lamp(load.lamp).value : 'unknown'));
  const carried = wiring.carried.value;
  const isSource = carried !== null && lamp?.path === carried.lamp.path;
  const isOver = carried !== null && carried.over === output.output;
  const atHand = wiring.lamp(wiring.chosen.value ?? '');
  const classes = [
    'slot',
    use.is,
    lamp !== null && lamp.path === atHand?.path && 'chosen',
    isSource && 'source',
    isOver && (takesLamp(output) ? 'over' : 'over refused'),
  ];
  const words = outputWords(output);
  return (
    <button
      type="button"
      class={classes.filter(Boolean).join(' ')}
      data-output={output.output}
      tabIndex={isEntry ? 0 : -1}
      title={words}
      aria-label={words}
      {...(lamp ? { 'aria-pressed': lamp.path === atHand?.path } : {})}
    >
      <SlotMark use={use.is} colour={lamp ? colourOf(lamp, load) : ''} look={look.value} />
      <span class="slot-name">{output.name.replace('bit ', '')}</span>
    </button>
  );
}
