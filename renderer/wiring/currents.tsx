import { type BudgetLine, budgetOf } from '../../shared/electrics/budget.ts';
import { setSeries } from '../../shared/layout/wiring/details.ts';
import { usePanel } from '../model/context.ts';
import type { Wired, Wiring } from '../model/wiring.ts';
import { Bar } from './bar.tsx';
import { Choice } from './choice.tsx';
import { findingsOfBoard } from './findings.ts';
import { currentText } from './words.ts';

interface Props {
  readonly wiring: Wiring;
  readonly wired: Wired;
}

const KINDS: readonly (readonly [string, readonly BudgetLine['is'][]])[] = [
  ['Supply', ['supply']],
  ['Chip', ['chip']],
  ['Port groups', ['group']],
  ['Chain', ['register']],
  ['Drivers', ['driver']],
  ['Pins', ['pin']],
  ['Outputs of the chain', ['output']],
];

/** What the board carries at its worst moment and on average, each with its limit and where that is from. */
export function Currents({ wiring, wired }: Props) {
  const { model } = usePanel();
  const { layout, board, compiled } = wired;
  const findings = findingsOfBoard(model.open.value.findings, layout.boards.indexOf(board));
  return (
    <div class="currents">
      <h3>What {board.name} carries</h3>
      {findings.map((finding) => (
        <p key={`${finding.code} ${finding.path}`} class="new-site-note">
          <b>{finding.what}</b> {finding.why} {finding.cure}
        </p>
      ))}
      <Choice
        label="Resistors at hand"
        value={layout.electrics?.series ?? 'E12'}
        choices={[
          ['E12', 'series E12'],
          ['E24', 'series E24'],
        ]}
        onChoose={(series) => void wiring.apply(setSeries(layout, series))}
      />
      {compiled ? (
        <Lines wired={wired} />
      ) : (
        <p>Mend the errors among the findings first: what the board shows is not known yet.</p>
      )}
    </div>
  );
}

function Lines({ wired }: { readonly wired: Wired }) {
  const { layout, compiled } = wired;
  if (!compiled) return null;
  const { lines, everything, basis } = budgetOf(layout, compiled);
  return (
    <>
      <p>
        Bar: the worst moment that can come. Mark at its foot: the average
        {basis === 'busy' ? ' when there is much traffic' : ' over the cycles'}. All lamps lit at once would take{' '}
        {currentText(everything)}.
      </p>
      {KINDS.map(([name, kinds]) => (
        <Kind key={name} name={name} lines={lines.filter(({ is }) => kinds.includes(is))} />
      ))}
    </>
  );
}

/** Lines of one kind, the fullest first; each source once. */
function Kind({ name, lines }: { readonly name: string; readonly lines: readonly BudgetLine[] }) {
  if (lines.length === 0) return null;
  const share = ({ worst, limit }: BudgetLine): number => (limit === null ? 0 : worst / limit);
  const sources = [...new Set(lines.map(({ source }) => source))].filter((source) => source !== '');
  return (
    <section class="current-kind" aria-label={name}>
      <h4>{name}</h4>
      <ul>
        {[...lines]
          .sort((a, b) => share(b) - share(a))
          .map((line) => (
            <Bar key={line.name} line={line} />
          ))}
      </ul>
      {sources.map((source) => (
        <p key={source} class="current-source">
          Limit: {source}.
        </p>
      ))}
    </section>
  );
}
