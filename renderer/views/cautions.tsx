/** What everybody must know before wiring a lamp. */
export function Cautions() {
  return (
    <ul class="cautions">
      <li>For lights on scale models, on extra-low voltage: a USB port or a 5 V supply. Never mains.</li>
      <li>Never for real traffic: nothing here is made or approved for that.</li>
      {/* Atmel 8271, 29.1: absolute maximum of an I/O pin. */}
      <li>Every LED needs its resistor; 40 mA through a pin is the most that the chip survives.</li>
    </ul>
  );
}
