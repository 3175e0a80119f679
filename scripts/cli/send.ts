/** `amberwick send FILE`: a layout to a board, which runs it from then on; with `--keep` also after a power cut. */
import { requestProblem, whoProblem } from '../../electron/host/service/failures.ts';
import { upload } from '../../electron/host/upload.ts';
import { ask } from '../../shared/link/requests.ts';
import { type PortOptions, withBoard } from './connect.ts';
import { chooseBoard, loadGood } from './load.ts';
import type { Console, Report } from './output.ts';

export interface SendOptions extends PortOptions {
  readonly keep?: boolean;
  readonly board?: string;
}

export async function send(file: string, options: SendOptions, io: Console): Promise<Report> {
  const loaded = loadGood(file);
  if (!loaded.ok) return loaded.report;
  const { findings } = loaded.value;
  const chosen = chooseBoard(loaded.value, options.board);
  if (!chosen.ok) return chosen.report;
  const { id, name, table, image } = chosen.value;
  if (image === null) return { exit: 1, findings };
  const where = { port: options.port, board: name };
  const report = await withBoard(
    options,
    { board: id, chip: table.chip },
    async ({ session, who }): Promise<Report> => {
      const unfit = whoProblem(who, table.chip, where);
      if (unfit) return { exit: 1, problem: unfit };
      const sent = await upload(session, image, {
        onProgress: (done, total) => io.progress(done, total),
      });
      if (!sent.ok) return { exit: 1, problem: requestProblem(sent.error, where, 'uploadRefused') };
      const told = `${name} runs ${loaded.value.layout.name} (${image.length} bytes).`;
      if (!options.keep) return { exit: 0, data: { board: id, bytes: image.length, kept: false }, text: [told] };
      const kept = await session.request(ask.keep());
      if (!kept.ok) return { exit: 1, problem: requestProblem(kept.error, where) };
      return {
        exit: 0,
        data: { board: id, bytes: image.length, kept: true },
        text: [told, `Kept on ${name}: it starts with this table.`],
      };
    },
  );
  return { ...report, findings };
}
