import { useSignal } from '@preact/signals';
import { timeText } from '../../shared/workbench/words.ts';
import { type DialTimes, signed } from '../model/compare.ts';
import { usePanel } from '../model/context.ts';
import { LimitForm } from './limit-form.tsx';
import { limitLines } from './limit-words.ts';
import { takeLimitsBack } from './limits.ts';
import { backToPlan, takeIntoPlan } from './plan-times.ts';

/** What there is to one time beyond turning it: where its limits come from, other ones, plan and memory. */
export function DialMore({ times, id }: { readonly times: DialTimes; readonly id: string }) {
  const { model } = usePanel();
  const isEditing = useSignal(false);
  const { site, dial, name, planned, running, kept } = times;
  const owner = site.names.dials[dial]?.owner;
  const place = { board: site.board, site: site.number, dial };
  const isUnplanned = running !== null && running !== planned;
  const isUnkept = running !== null && kept !== null && running !== kept;
  return (
    <div class="dial-more" id={id}>
      <dl class="limit-lines">
        {limitLines(site, dial).map((line) => (
          <div key={line.name}>
            <dt>{line.name}</dt>
            <dd>{line.text}</dd>
          </div>
        ))}
        {owner && (
          <div>
            <dt>Set here</dt>
            <dd>
              “{owner.reason}” Without it: {timeText(owner.min)} to {timeText(owner.max)}.
            </dd>
          </div>
        )}
      </dl>
      {isEditing.value ? (
        <LimitForm
          site={site}
          dial={dial}
          onDone={() => {
            isEditing.value = false;
          }}
        />
      ) : (
        <div class="row">
          <button
            type="button"
            class="button"
            aria-label={`Other limits: ${name}`}
            onClick={() => {
              isEditing.value = true;
            }}
          >
            Other limits
          </button>
          {owner && (
            <button
              type="button"
              class="button"
              aria-label={`Take the limits back: ${name}`}
              onClick={() => void takeLimitsBack(model, site, dial)}
            >
              Take the limits back
            </button>
          )}
          {isUnplanned && (
            <>
              <button
                type="button"
                class="button"
                aria-label={`Into the plan (${signed(running - planned)}): ${name}`}
                onClick={() => void takeIntoPlan(model, [times])}
              >
                Into the plan ({signed(running - planned)})
              </button>
              <button
                type="button"
                class="button"
                aria-label={`Back to planned: ${name}`}
                onClick={() => void backToPlan(model, [times])}
              >
                Back to planned
              </button>
            </>
          )}
          {isUnkept && (
            <button
              type="button"
              class="button"
              aria-label={`Back to kept: ${name}`}
              onClick={() => void model.nudges.nudge(place, kept)}
            >
              Back to kept
            </button>
          )}
        </div>
      )}
    </div>
  );
}
