import type { Load } from '../../shared/electrics/model.ts';
import { answersNow, countText } from '../../shared/lampcheck/document.ts';
import { lampText } from '../../shared/lampcheck/lamps.ts';
import { standingOf } from '../../shared/lampcheck/record.ts';
import { mendsOf, type Repair, repairsOf, resistorsToLookAt } from '../../shared/lampcheck/replan.ts';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { SwapPicture } from './swap-picture.tsx';
import { whenAndWho } from './words.ts';

/** What came of it, what the plan can mend, and what the soldering iron has to. */
export function Summary() {
  const { model, surface } = usePanel();
  const { check, boards } = model;
  const board = check.board.value ?? boards.value[0]?.id ?? '';
  const name = model.boardName(board);
  const loads = check.loads(board);
  const record = check.record(board);
  const answers = answersNow(loads, record);
  const found = check.diagnosis(board);
  const mends = mendsOf(found);
  const canReplan = mends.some(({ obstacle }) => obstacle === null);
  const repairs = repairsOf(found);
  const open = loads.filter((load) => standingOf(loads, load, record) !== 'right');
  const mustSend = !model.board(board).runsLayout.value;
  const again = [...new Set([...found.doubts.flatMap(({ lamps }) => lamps), ...found.needed])];
  const others = boards.value.filter(({ id }) => id !== board && check.loads(id).length > 0);
  const ask = (lamps: readonly Load[]): void =>
    void check.begin({ board, scope: { is: 'lamps', lamps: lamps.map(({ lamp }) => lamp) }, others: 'dark' });
  return (
    <div class="check-part check-summary">
      <p class="check-says" role="status">
        {open.length === 0
          ? `All ${loads.length} lamps of ${name} are right.`
          : `${name}: ${countText(answers.values())}.`}
        {loads.length > answers.size && ` ${loads.length - answers.size} are to be checked.`}
      </p>
      {record && <p class="check-note">{whenAndWho(record)}</p>}
      {mends.map(({ swap, obstacle }) => (
        <section key={swap.moves.map(({ lamp }) => lamp.lamp).join(' ')} class="check-swap" aria-label="Crossed wires">
          <SwapPicture swap={swap} />
          <p>
            {obstacle ?? 'These wires are exchanged. The plan can be put right instead of the wires.'}{' '}
            {swap.missing &&
              `${lampText(swap.missing)} was lit by none: it gets the output that is left, and is still to be mended.`}{' '}
            {obstacle === null && resistorsToLookAt(swap)}
          </p>
        </section>
      ))}
      {canReplan && (
        <p class="row">
          <button type="button" class="button strong tall" onClick={() => check.replan(board)}>
            Put it right in the plan
          </button>
          <button
            type="button"
            class="button tall"
            onClick={() => surface.saveFile(`${board}-repairs.txt`, listText(name, repairsOf(found, true)))}
          >
            Save a list for soldering instead
          </button>
        </p>
      )}
      {check.refusals.value.map(({ code, path, what, cure }) => (
        <p key={`${code} ${path}`} class="new-site-note">
          <b>{what}</b> {cure}
        </p>
      ))}
      {found.doubts.map(({ lamps, why }) => (
        <p key={lamps.map(({ lamp }) => lamp).join(' ')} class="new-site-note">
          {why}
        </p>
      ))}
      {again.length > 0 && (
        <p class="row">
          <button
            type="button"
            class="button strong tall"
            aria-disabled={mustSend}
            onClick={() => !mustSend && ask(again)}
          >
            Ask for {again.length === 1 ? 'this one' : `these ${again.length}`} again
          </button>
        </p>
      )}
      {repairs.length > 0 && (
        <Repairs repairs={repairs} onSave={() => surface.saveFile(`${board}-repairs.txt`, listText(name, repairs))} />
      )}
      {mustSend && (
        <p class="row">
          <span>{name} does not run this plan yet.</span>
          <CommandButton id="send" about={{ board: model.board(board) }} class="button strong tall" />
        </p>
      )}
      <p class="row">
        {open.length > 0 && (
          <button
            type="button"
            class={mustSend || canReplan ? 'button tall' : 'button strong tall'}
            aria-disabled={mustSend}
            onClick={() => !mustSend && ask(open)}
          >
            Check the {open.length} that are not right yet
          </button>
        )}
        {others.map(({ id }) => (
          <button
            key={id}
            type="button"
            class="button tall"
            onClick={() => {
              check.board.value = id;
              check.phase.value = 'begin';
            }}
          >
            Go to {model.boardName(id)}
          </button>
        ))}
        <button
          type="button"
          class="button tall"
          onClick={() => {
            check.phase.value = 'begin';
          }}
        >
          Another check
        </button>
      </p>
    </div>
  );
}

function Repairs({ repairs, onSave }: { readonly repairs: readonly Repair[]; readonly onSave: () => void }) {
  return (
    <section class="check-repairs" aria-label="For the soldering iron">
      <h3>For the soldering iron, with the supply switched off</h3>
      <ol>
        {repairs.map(({ what, cure }) => (
          <li key={what}>
            <b>{what}</b> {cure}
          </li>
        ))}
      </ol>
      <button type="button" class="button" onClick={onSave}>
        Save this list
      </button>
    </section>
  );
}

function listText(board: string, repairs: readonly Repair[]): string {
  const lines = repairs.map(({ what, cure }, at) => `${at + 1}. ${what}\n   ${cure}\n`);
  return `${board}: for the soldering iron\nSwitch the supply off first. Extra-low voltage only.\n\n${lines.join('\n')}`;
}
