import { useSignal } from '@preact/signals';
import { useLayoutEffect, useMemo } from 'preact/hooks';
import { timeDistanceChart } from '../../shared/drawings/time-distance.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { ratioIn } from '../../shared/scale/ratios.ts';
import { modelSpeed, readSpeed } from '../../shared/scale/speeds.ts';
import { timeText } from '../../shared/workbench/words.ts';
import { usePanel } from '../model/context.ts';
import { parseTime } from '../model/time.ts';
import { useDrawingRules } from '../phases/styles.ts';
import { junctionsInOrder, planWave, type StreetPlan } from './plan.ts';

/** Junctions of one street on one cycle, so that whoever drives at its speed meets green. */
export function WaveSheet() {
  const { model } = usePanel();
  const { layout } = model.open.value;
  if (!layout || junctionsInOrder(layout).length < 2) {
    return <p>A street needs two junctions. Make another one with N.</p>;
  }
  return <Street layout={layout} />;
}

function Street({ layout }: { readonly layout: Layout }) {
  const { model } = usePanel();
  const junctions = junctionsInOrder(layout);
  const left = useSignal<ReadonlySet<string>>(new Set());
  const speedText = useSignal('30 mph');
  const cycleText = useSignal('');
  const legTexts = useSignal<ReadonlyMap<string, string>>(new Map());
  const theme = model.preferences.theme.value;
  useLayoutEffect(() => useDrawingRules(theme), [theme]);

  const sites = junctions.filter(({ id }) => !left.value.has(id));
  const speed = readSpeed(speedText.value);
  const cycle = cycleText.value.trim() === '' ? null : parseTime(cycleText.value);
  const cycleWrong = cycleText.value.trim() !== '' && cycle === null;
  const typed = sites.slice(1).map(({ id }) => legTexts.value.get(id)?.trim() ?? '');
  const legs = typed.every((text) => text === '') ? null : typed.map(Number);
  const legsWrong = legs !== null && !legs.every((leg) => leg > 0);
  const ready = speed !== null && !cycleWrong && !legsWrong;
  const key = [sites.map(({ id }) => id), legs, speed, cycle].join(' ');
  // The search is work; it is done anew when what is asked for is another thing.
  const plan = useMemo(
    () =>
      ready && speed !== null
        ? planWave(layout, {
            sites: sites.map(({ id }) => id),
            speed,
            legs,
            cycle: cycle === null ? null : cycle / 1000,
          })
        : null,
    [layout, key, ready],
  );
  const choose = (id: string, on: boolean): void => {
    const next = new Set(left.value);
    if (on) next.delete(id);
    else next.add(id);
    left.value = next;
  };
  return (
    <div class="traffic">
      <fieldset class="wave-sites">
        <legend>
          Junctions in their order, and the way from one to the next in mm where it is not the straight one
        </legend>
        {junctions.map(({ id, name }) => {
          const at = sites.findIndex((site) => site.id === id);
          return (
            <div key={id} class="wave-site">
              <label class="field check">
                <input
                  type="checkbox"
                  checked={at >= 0}
                  onChange={(event) => choose(id, event.currentTarget.checked)}
                />
                {name}
              </label>
              {at > 0 && (
                <label class="field">
                  <input
                    class="remark"
                    inputMode="numeric"
                    placeholder="as on the plan"
                    aria-label={`Way to ${name}, mm`}
                    value={legTexts.value.get(id) ?? ''}
                    onInput={(event) => {
                      legTexts.value = new Map(legTexts.value).set(id, event.currentTarget.value);
                    }}
                  />
                  mm
                </label>
              )}
            </div>
          );
        })}
      </fieldset>
      <div class="row">
        <label class="field">
          Speed
          <input
            class="remark"
            value={speedText}
            onInput={(event) => {
              speedText.value = event.currentTarget.value;
            }}
          />
        </label>
        <label class="field">
          Cycle
          <input
            class="remark"
            inputMode="decimal"
            placeholder="the longest of them"
            value={cycleText}
            onInput={(event) => {
              cycleText.value = event.currentTarget.value;
            }}
          />
        </label>
        {speed !== null && <span>{Math.round(modelSpeed(speed, ratioIn(layout)))} mm a second on the layout</span>}
      </div>
      {speed === null && <p class="new-site-note">Write a speed such as 30 mph or 50 km/h.</p>}
      {cycleWrong && <p class="new-site-note">Write a time such as 60 or 1:05, or leave it empty.</p>}
      {legsWrong && <p class="new-site-note">Write every way in mm, or none of them.</p>}
      {plan && <Found plan={plan} first={sites[0]?.id ?? 'street'} />}
    </div>
  );
}

function Found({ plan: { found, findings }, first }: { readonly plan: StreetPlan; readonly first: string }) {
  const { model, surface } = usePanel();
  const svg = useMemo(() => (found ? timeDistanceChart(found.chart, { width: 880, bare: true }) : ''), [found]);
  const apply = async (): Promise<void> => {
    if (!found) return;
    const what = `Put ${found.chart.name} on one cycle of ${timeText(found.chart.cycle * 1000)}, each junction with its offset.`;
    if (await model.change(writeLayout(found.layout), what)) surface.sheet.value = null;
  };
  return (
    <>
      {found && (
        <section
          class="stages"
          aria-label="Time and distance"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: it may scroll, so the keyboard must reach it
          tabIndex={0}
          // shared/drawings makes the text and escapes every name in it.
          dangerouslySetInnerHTML={{ __html: svg }}
        />
      )}
      {findings.map((finding) => (
        <p key={`${finding.code} ${finding.path}`} class="new-site-note">
          <b>{finding.what}</b> {finding.cure}
        </p>
      ))}
      {found && (
        <p class="row">
          <button type="button" class="button strong" onClick={() => void apply()}>
            Take these offsets
          </button>
          <button
            type="button"
            class="button"
            onClick={() => surface.saveFile(`${first}-distance.svg`, timeDistanceChart(found.chart))}
          >
            Save as picture
          </button>
        </p>
      )}
    </>
  );
}
