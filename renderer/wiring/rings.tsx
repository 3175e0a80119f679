import { type Band, bandsOf } from '../../shared/electrics/bands.ts';

/** A resistor with its rings, read from the left; nothing where no rings can say the value. */
export function Rings({ ohms }: { readonly ohms: number }) {
  const bands = bandsOf(ohms, 4) ?? bandsOf(ohms, 5);
  if (bands === null) return null;
  // The last ring is the tolerance and stands apart.
  const at = (index: number): number => (index === bands.length - 1 ? 57 : 18 + index * (bands.length === 5 ? 8 : 10));
  return (
    <svg class="rings" viewBox="0 0 80 20" role="img" aria-label={`Rings: ${bands.join(', ')}`}>
      <path class="ring-wire" d="M0 10 H80" />
      <rect class="ring-body" x={10} y={3} width={60} height={14} rx={6} />
      {bands.map((band: Band, index) => (
        <rect key={index} class={`ring ${band}`} x={at(index)} y={3} width={5} height={14} />
      ))}
    </svg>
  );
}
