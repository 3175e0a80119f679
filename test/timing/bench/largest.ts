/** A table as large as a board holds: as many sites and lamps as its firmware takes, half junctions, half beacons. */
import { encodeTable } from '../../../shared/table/encode.ts';
import { CAPACITY, type Chip } from '../../../shared/table/format.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import { board, onChain } from '../../fixtures/sites/build.ts';
import { twoStage, twoStageProgram } from '../../fixtures/sites/two-stage.ts';
import { zebra } from '../../fixtures/sites/zebra.ts';
import type { PaperSite } from '../ideal.ts';
import { PENMARROW } from '../penmarrow.ts';

/** What it shows, on paper: the junction and the beacons of the example have the same times as those of the fixtures. */
export function onPaper({ sites, programs }: BoardTable): PaperSite[] {
  let firstLamp = 0;
  return sites.map(({ program }) => {
    const paper = { firstLamp, rows: (program === 0 ? PENMARROW[0] : PENMARROW[2])?.rows ?? [] };
    firstLamp += programs[program]?.lamps.length ?? 0;
    return paper;
  });
}

/** All junctions have the same times, so that they change in the same tick: the most that one tick can be asked for. */
export function largest(chip: Chip): BoardTable {
  const { sites: most, lamps } = CAPACITY[chip];
  const [junction] = twoStage.sites;
  const beacons = zebra.sites[1];
  const alternate = zebra.programs[1];
  if (!junction || !beacons || !alternate) throw new Error('the fixtures have changed');
  const sites = Array.from({ length: most }, (_, at) => ({ ...(at % 2 ? beacons : junction), program: at % 2 }));
  const table = { ...onChain(board({ programs: [twoStageProgram, alternate], sites })), chip };
  if (table.lamps.length !== lamps || !encodeTable(table).bytes) throw new Error('not the largest table');
  return table;
}
