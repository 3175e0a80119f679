/** What everybody must know before wiring a lamp. */
export function Cautions() {
  return (
    <ul class="cautions">
      <li>For lights on scale models, on extra-low voltage: a USB port or a 5 V supply. Never mains.</li>
      <li>Never for real traffic: nothing here is made or approved for that.</li>
      <li>Every LED needs its resistor; a pin carries 20 mA in good health.</li>
    </ul>
  );
}
