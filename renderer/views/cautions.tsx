import { FIRST_CAUTIONS } from '../help/chapters/cautions.ts';

/** What everybody must know before wiring a lamp. */
export function Cautions() {
  return (
    <ul class="cautions">
      {FIRST_CAUTIONS.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  );
}
