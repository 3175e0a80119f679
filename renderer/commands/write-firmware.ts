import { firmwareOffer } from '../model/firmware.ts';
import type { Model } from '../model/model.ts';
import { layOver } from '../model/surface.ts';
import { type About, command } from './command.ts';
import { meant } from './site-at-hand.ts';
import { notConnected } from './why.ts';

/** Opens the question; nothing is written before it is answered. */
export const writeFirmware = command({
  id: 'write-firmware',
  label: 'Put the firmware on',
  hint: 'Writes the firmware that comes with Amberwick to the board, after a question.',
  shortcut: 'F',
  menu: 'Board',
  line: true,
  words: ['flash', 'program', 'update', 'upgrade', 'boot loader', 'new board', 'burn'],
  name: (model, about) => (offerOf(model, about)?.kind === 'update' ? 'Update the firmware' : 'Put the firmware on'),
  when: (model, about) => offerOf(model, about) !== null && model.writing.now.value?.step !== 'work',
  why: (model, about) => {
    if (model.writing.now.value?.step === 'work') return 'Firmware is being written already.';
    const state = meant(model, about)?.state.value;
    if (state?.virtual) return 'A virtual board always has the firmware of this program.';
    return notConnected(model, about) ?? 'The board has the firmware of this program already.';
  },
  run: (model, surface, about) => {
    const board = meant(model, about);
    const offer = offerOf(model, about);
    if (!board || !offer) return;
    model.writing.ask({ is: offer.kind, board: board.id, port: offer.port });
    layOver(surface, 'firmware');
  },
});

function offerOf(model: Model, about?: About) {
  const board = meant(model, about);
  const offer = board && firmwareOffer(board.state.value);
  return offer && (about?.port === undefined || about.port === offer.port) ? offer : null;
}
