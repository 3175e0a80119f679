/** What happens when a board is plugged in, opened and pulled out. */
export function HelpConnecting() {
  return (
    <section class="help-part" aria-label="Connecting">
      <h3>Connecting</h3>
      <p>
        Press C for the ports. Those with a USB chip that boards carry come first and are marked "probably a board".
        Connecting never writes anything to a board.
      </p>
      <h4>Why most boards start anew when their port is opened</h4>
      <p>
        Opening a port raises its DTR line, and most boards have a small capacitor from DTR to the reset pin. The lamps
        begin from their first interval; what was kept is there.
      </p>
      <ul class="plain">
        <li>
          Linux and macOS: the system raises DTR with each opening. Amberwick leaves it raised when it closes the port,
          so only the first opening after plugging in restarts the board.
        </li>
        <li>Windows: Amberwick leaves DTR alone when it opens the port, so the board runs on.</li>
        <li>
          For certain: a capacitor of 10 µF from RESET to GND, plus to RESET. Put it in when the firmware is on the
          board, and take it out to write firmware.
        </li>
      </ul>
      <h4>When it does not open</h4>
      <ul class="plain">
        <li>In use: close the serial monitor or the second Amberwick that has the port.</li>
        <li>
          Not allowed, on Linux: the message names the group that the port belongs to and the line to type. Log out and
          in again after it.
        </li>
      </ul>
      <h4>When the cable is pulled</h4>
      <p>
        A board with power of its own runs on and its lamps with it. Amberwick looks for it and takes it up again when
        it is back; holds, a pause and single lamps that were switched from here end after 5 seconds.
      </p>
      <h4>When a board is broken</h4>
      <p>
        Plug a new one in and press "Put this board in the place of …" at its port. It gets the firmware, the name and
        what the old one kept last.
      </p>
    </section>
  );
}
