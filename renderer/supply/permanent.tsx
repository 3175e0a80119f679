/** Away from USB: the two ways in, what happens with both, and the cautions. */
export function Permanent() {
  return (
    <details class="permanent">
      <summary>From USB to a supply of its own</summary>
      <ul class="cautions">
        <li>
          Switch everything off before you change a wire. Look twice at plus and minus: wrong way round, the board is
          gone.
        </li>
        <li>A ready-made plug-in supply with an extra-low voltage output only. Never open one, never wire mains.</li>
      </ul>
      <dl class="ways-in">
        <dt>Regulated 5 V to the 5 V pin and GND</dt>
        <dd>
          For many lamps: nothing is lost as heat. Nothing on the board checks it either: the chip is made for 5.5 V at
          most, so measure the supply before you join it.
        </dd>
        <dt>7 to 12 V to the supply socket or its pin</dt>
        <dd>
          The board's regulator makes 5 V of it and turns the rest into heat: 12 V at 200 mA are 1.4 W, which is more
          than most small regulators bear for long. 7 to 9 V and few lamps keep it cool.
        </dd>
        <dt>USB and the supply socket together</dt>
        <dd>
          On most boards a switch of its own takes the socket and leaves USB for data. Whether yours has one is in its
          own documents.
        </dd>
        <dt>USB and the 5 V pin together</dt>
        <dd>
          <b>Not together</b>, unless the board's own documents say that a diode or a switch stands between: the supply
          would push current back into the computer. Pull the USB plug first, or use a cable without the 5 V wire.
        </dd>
        <dt>Fuse or current limit</dt>
        <dd>
          A supply that can give amps melts thin wire in a short. Put a fuse into its plus wire, or use one with a
          current limit, a little above the most that the board takes: see Currents.
        </dd>
      </dl>
    </details>
  );
}
