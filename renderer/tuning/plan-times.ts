/** From the running times to the plan, and back again. */

import { writeLayout } from '../../shared/layout/write.ts';
import { takeTimes } from '../../shared/signals/take/take.ts';
import { dialName } from '../../shared/workbench/dial-name.ts';
import { timeText } from '../../shared/workbench/words.ts';
import type { DialTimes } from '../model/compare.ts';
import type { Model } from '../model/model.ts';
import type { Change } from '../model/nudges.ts';

const MOST_NAMED = 4;

/** Writes running times into the layout; what the plan cannot hold is said. One step of undo. */
export async function takeIntoPlan(model: Model, dials: readonly DialTimes[]): Promise<void> {
  const { layout } = model.open.value;
  const wanted = dials.flatMap(({ site, id, running, planned }) =>
    running === null || running === planned ? [] : [{ site: site.id, dial: id, ms: running }],
  );
  if (layout === null || wanted.length === 0) return;
  const result = takeTimes(layout, wanted);
  const said = (it: (typeof wanted)[number]): string => {
    const names = model.open.value.sites.find(({ id }) => id === it.site)?.names;
    const at = names?.dials.findIndex(({ id }) => id === it.dial) ?? -1;
    return (names && dialName(names, at)) ?? it.dial;
  };
  // Names of the layout as it was: the change brings another one.
  const taken = result.taken.map((it) => `${said(it)} ${timeText(it.ms)}`);
  const left = result.left.map((it) => `${said(it)}: ${it.why}`);
  const more = taken.length > MOST_NAMED ? ` and ${taken.length - MOST_NAMED} more` : '';
  const what = `Took into the plan: ${taken.slice(0, MOST_NAMED).join(', ')}${more}.`;
  const isDone = taken.length === 0 || (await model.change(writeLayout(result.layout), what));
  if (!isDone || left.length === 0) return;
  model.trouble.value = {
    about: {},
    problem: {
      code: 'notInPlan',
      what: `${left.length === 1 ? 'One time' : `${left.length} times`} could not be taken into the plan.`,
      why: left.slice(0, MOST_NAMED).join(' '),
      next: 'It runs on as it is, and Keep makes it stay on the board. To plan it, change the file.',
    },
  };
}

/** Runs the planned times of these dials again, board by board. */
export async function backToPlan(model: Model, dials: readonly DialTimes[]): Promise<void> {
  const changes = dials.flatMap(({ site, dial, running, planned }): Change[] =>
    running === null || running === planned
      ? []
      : [{ board: site.board, site: site.number, dial, from: running, to: planned }],
  );
  for (const board of new Set(changes.map((change) => change.board))) {
    const here = changes.filter((change) => change.board === board);
    await model.nudges.many(here, 'Went back to the plan', 'plan');
  }
}

/** Sends the layout with its limits, then runs the times again that ran before. */
export async function sendKeepingTimes(model: Model, board: string): Promise<void> {
  const ran = new Map(
    model.open.value.sites.flatMap((site) =>
      site.board !== board
        ? []
        : site.names.dials.map(({ id }, dial) => [
            `${site.id}/${id}`,
            model.nudges.value({ board, site: site.number, dial }),
          ]),
    ),
  );
  const sent = await model.ask('send', { board });
  if (!sent.ok) return;
  const changes = model.open.value.sites.flatMap((site): Change[] => {
    if (site.board !== board) return [];
    return site.names.dials.flatMap(({ id }, dial): Change[] => {
      const place = { board, site: site.number, dial };
      const [from, to] = [model.nudges.value(place), ran.get(`${site.id}/${id}`) ?? null];
      return from === null || to === null || from === to ? [] : [{ ...place, from, to }];
    });
  });
  await model.nudges.many(changes, 'Went on with the times that ran', 'plan');
}
