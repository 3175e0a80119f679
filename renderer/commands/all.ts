/** Every command. */

import { about } from './about.ts';
import { arrange } from './arrange.ts';
import { attachPhoto } from './attach-photo.ts';
import { backToPlan } from './back-to-plan.ts';
import { boardSheet } from './board-sheet.ts';
import { cancelFirmware } from './cancel-firmware.ts';
import { cancelSend } from './cancel-send.ts';
import { changesSheet } from './changes-sheet.ts';
import { closer } from './closer.ts';
import type { Command } from './command.ts';
import { copySite } from './copy-site.ts';
import { differsSheet } from './differs-sheet.ts';
import { drawRoad } from './draw-road.ts';
import { earlierKeeps } from './earlier-keeps.ts';
import { earlierSessions } from './earlier-sessions.ts';
import { faster } from './faster.ts';
import { findCommand } from './find-command.ts';
import { findWiring } from './find-wiring.ts';
import { framesSheet } from './frames-sheet.ts';
import { further } from './further.ts';
import { goBackSaved } from './go-back-saved.ts';
import { help } from './help.ts';
import { hold } from './hold.ts';
import { holdNext } from './hold-next.ts';
import { keep } from './keep.ts';
import { keepTemplate } from './keep-template.ts';
import { lampCheck } from './lamp-check.ts';
import { layPicture } from './lay-picture.ts';
import { layouts } from './layouts.ts';
import { logbook } from './logbook.ts';
import { newLayout } from './new-layout.ts';
import { newSite } from './new-site.ts';
import { nextSite } from './next-site.ts';
import { noteA } from './note-a.ts';
import { noteB } from './note-b.ts';
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
import { saveAs } from './save-as.ts';
import { saveCopy } from './save-copy.ts';
import { saveLayout } from './save-layout.ts';
import { saveLog } from './save-log.ts';
import { saveReport } from './save-report.ts';
import { saveStory } from './save-story.ts';
import { saveTable } from './save-table.ts';
import { sayNow } from './say-now.ts';
import { scaleSheet } from './scale-sheet.ts';
import { send } from './send.ts';
import { setsSheet } from './sets-sheet.ts';
import { sinceKeep } from './since-keep.ts';
import { slower } from './slower.ts';
import { snap } from './snap.ts';
import { step } from './step.ts';
import { switchSets } from './switch-sets.ts';
import { takeSiteAway } from './take-away.ts';
import { takeTimesIntoPlan } from './take-into-plan.ts';
import { theme } from './theme.ts';
import { trafficSheet } from './traffic-sheet.ts';
import { undo } from './undo.ts';
import { viewDesk } from './view-desk.ts';
import { viewLayout } from './view-layout.ts';
import { viewRoom } from './view-room.ts';
import { waveSheet } from './wave-sheet.ts';
import { wholePlan } from './whole-plan.ts';
import { wiringSheet } from './wiring-sheet.ts';
import { writeFirmware } from './write-firmware.ts';

/** In the order of the menus, and within each of them. */
export const COMMANDS: readonly Command[] = [
  newLayout,
  layouts,
  openFile,
  openExample,
  saveLayout,
  saveAs,
  saveCopy,
  goBackSaved,
  remark,
  attachPhoto,
  saveLog,
  saveStory,
  saveTable,

  undo,
  redo,
  changesSheet,
  arrange,
  drawRoad,
  layPicture,
  snap,

  viewRoom,
  viewLayout,
  viewDesk,
  closer,
  further,
  wholePlan,
  logbook,
  sinceKeep,
  earlierSessions,
  theme,

  nextSite,
  previousSite,
  hold,
  holdNext,
  step,
  restart,
  switchSets,
  setsSheet,
  noteA,
  noteB,
  differsSheet,
  takeTimesIntoPlan,
  backToPlan,
  sayNow,
  phasesSheet,
  trafficSheet,
  waveSheet,
  newSite,
  copySite,
  keepTemplate,
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
