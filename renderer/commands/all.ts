/** Every command. */

import { about } from './about.ts';
import { boardSheet } from './board-sheet.ts';
import { cancelFirmware } from './cancel-firmware.ts';
import { cancelSend } from './cancel-send.ts';
import type { Command } from './command.ts';
import { earlierKeeps } from './earlier-keeps.ts';
import { faster } from './faster.ts';
import { findCommand } from './find-command.ts';
import { findWiring } from './find-wiring.ts';
import { framesSheet } from './frames-sheet.ts';
import { help } from './help.ts';
import { hold } from './hold.ts';
import { keep } from './keep.ts';
import { lampCheck } from './lamp-check.ts';
import { newSite } from './new-site.ts';
import { nextSite } from './next-site.ts';
import { openExample } from './open-example.ts';
import { openFile } from './open-file.ts';
import { pause } from './pause.ts';
import { phasesSheet } from './phases-sheet.ts';
import { planWiring } from './plan-wiring.ts';
import { power } from './power.ts';
import { practise } from './practise.ts';
import { previousSite } from './previous-site.ts';
import { putAway } from './put-away.ts';
import { putBack } from './put-back.ts';
import { redo } from './redo.ts';
import { remark } from './remark.ts';
import { replaceBoard } from './replace-board.ts';
import { restart } from './restart.ts';
import { restartAll } from './restart-all.ts';
import { saveLayout } from './save-layout.ts';
import { saveLog } from './save-log.ts';
import { saveReport } from './save-report.ts';
import { scaleSheet } from './scale-sheet.ts';
import { send } from './send.ts';
import { slower } from './slower.ts';
import { step } from './step.ts';
import { takeSiteAway } from './take-away.ts';
import { theme } from './theme.ts';
import { trafficSheet } from './traffic-sheet.ts';
import { undo } from './undo.ts';
import { viewDesk } from './view-desk.ts';
import { viewLayout } from './view-layout.ts';
import { viewRoom } from './view-room.ts';
import { waveSheet } from './wave-sheet.ts';
import { wiringSheet } from './wiring-sheet.ts';
import { writeFirmware } from './write-firmware.ts';

/** In the order of the menus, and within each of them. */
export const COMMANDS: readonly Command[] = [
  openFile,
  openExample,
  saveLayout,
  remark,
  saveLog,

  undo,
  redo,

  viewRoom,
  viewLayout,
  viewDesk,
  theme,

  nextSite,
  previousSite,
  hold,
  step,
  restart,
  phasesSheet,
  trafficSheet,
  waveSheet,
  newSite,
  takeSiteAway,

  boardSheet,
  send,
  cancelSend,
  keep,
  putBack,
  earlierKeeps,
  restartAll,
  pause,
  power,
  faster,
  slower,
  writeFirmware,
  cancelFirmware,
  replaceBoard,
  framesSheet,

  planWiring,
  wiringSheet,
  scaleSheet,
  lampCheck,
  findWiring,
  practise,

  help,
  findCommand,
  saveReport,
  about,
  putAway,
];

export function commandById(id: string): Command {
  const found = COMMANDS.find((it) => it.id === id);
  if (!found) throw new Error(`No command ${id}`);
  return found;
}
