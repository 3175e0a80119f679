const BLOOMS = ['red', 'amber', 'green', 'white', 'warm-white', 'blue', 'yellow'];

/** Light on the street around a lit lamp, one for each colour. */
export function Glow() {
  return (
    <defs>
      {BLOOMS.map((colour) => (
        <radialGradient key={colour} id={`bloom-${colour}`} class={`glow ${colour}`}>
          <stop offset="0.25" stop-opacity="0.85" />
          <stop offset="0.5" stop-opacity="0.3" />
          <stop offset="1" stop-opacity="0" />
        </radialGradient>
      ))}
    </defs>
  );
}
