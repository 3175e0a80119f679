import { useEffect, useMemo, useRef } from 'preact/hooks';
import { offerById } from '../../shared/layout/new-site/offers.ts';
import { PRACTICES } from '../../shared/practice/practices.ts';
import { usePanel } from '../model/context.ts';
import { Picture } from '../new-site/picture.tsx';
import { type Choice, Choices } from './choices.tsx';
import { OFFERED_SCALES, STEPS, StartModel, type Step, scaleName, VIRTUAL } from './start-model.ts';

const TITLES: Readonly<Record<Step, string>> = {
  scale: 'Which scale?',
  practice: 'Which country and era?',
  board: 'Which board?',
  site: 'What comes first?',
};
const SHORT: Readonly<Record<Step, string>> = {
  scale: 'Scale',
  practice: 'Country and era',
  board: 'Board',
  site: 'First lights',
};

/** From nothing to glowing lamps: four choices, each with a usual answer that is chosen already. */
export function StartSheet() {
  const it = useMemo(() => new StartModel(), []);
  const step = it.step.value;
  return (
    <div class="start">
      <ol class="start-steps" aria-label="Steps">
        {STEPS.map((each) => (
          <li key={each} {...(each === step ? { 'aria-current': 'step' as const } : {})}>
            {SHORT[each]}
          </li>
        ))}
      </ol>
      {it.progress.value === 'asking' ? <Asking key={step} it={it} step={step} /> : <Making it={it} />}
    </div>
  );
}

function Asking({ it, step }: { readonly it: StartModel; readonly step: Step }) {
  return (
    <>
      <h3 id="start-title">{TITLES[step]}</h3>
      {step === 'scale' && (
        <Choices
          label={TITLES.scale}
          choices={OFFERED_SCALES.map((scale) => ({ id: scale.id, name: scaleName(scale) }))}
          chosen={it.scale.value}
          onChoose={(id) => {
            it.scale.value = id as typeof it.scale.value;
          }}
          onTake={(id) => {
            it.scale.value = id as typeof it.scale.value;
            it.on();
          }}
        />
      )}
      {step === 'practice' && (
        <Choices
          label={TITLES.practice}
          choices={PRACTICES.map(({ id, name, drives }) => ({
            id,
            name,
            hint: `Traffic keeps to the ${drives.value}.`,
          }))}
          chosen={it.practice.value}
          onChoose={(id) => {
            it.practice.value = id;
          }}
          onTake={(id) => {
            it.practice.value = id;
            it.on();
          }}
        />
      )}
      {step === 'board' && <BoardStep it={it} />}
      {step === 'site' && <SiteStep it={it} />}
      {(step === 'practice' || step === 'board') && <Back it={it} />}
    </>
  );
}

function Back({ it }: { readonly it: StartModel }) {
  return (
    <button type="button" class="button start-back" onClick={() => it.back()}>
      Back
    </button>
  );
}

const BOARDS: readonly Choice[] = [
  { id: 'atmega328p', name: 'Board with an ATmega328P', hint: 'The small one: 18 pins for lamps and buttons.' },
  { id: 'atmega2560', name: 'Board with an ATmega2560', hint: 'The long one: 68 pins for lamps and buttons.' },
];

function BoardStep({ it }: { readonly it: StartModel }) {
  const { model } = usePanel();
  const real = model.ports.value.filter(({ virtual, likely }) => !virtual && likely);
  const choose = (id: string): void => {
    it.chip.value = id === 'atmega2560' ? 'atmega2560' : 'atmega328p';
  };
  return (
    <>
      {real.length > 0 && (
        <fieldset class="start-port">
          <legend>Where it runs</legend>
          {[{ path: VIRTUAL, label: 'Virtual board, no hardware needed' }, ...real].map(({ path, label }) => (
            <label key={path} class="start-radio">
              <input
                type="radio"
                name="start-port"
                checked={it.port.value === path}
                onChange={() => {
                  it.port.value = path;
                }}
              />
              {path === VIRTUAL ? label : `${label}, ${path}`}
            </label>
          ))}
        </fieldset>
      )}
      <Choices
        label={TITLES.board}
        choices={BOARDS}
        chosen={it.chip.value}
        onChoose={choose}
        onTake={(id) => {
          choose(id);
          it.on();
        }}
      />
    </>
  );
}

function SiteStep({ it }: { readonly it: StartModel }) {
  const { model, surface } = usePanel();
  const make = async (): Promise<void> => {
    if (!(await it.make(model))) return;
    model.preferences.distance.value = 'layout';
    surface.sheet.value = null;
  };
  const starts = it.starts.value;
  const choices = starts.map(({ id, name, hint, sites }): Choice => {
    const first = sites(() => false)?.[0];
    const offer = first && offerById(first.offer);
    return { id, name, hint, ...(offer && { picture: <Picture offer={offer} /> }) };
  });
  const choose = (id: string): void => {
    it.site.value = id;
    it.findings.value = [];
  };
  return (
    <form
      class="start-site"
      onSubmit={(event) => {
        event.preventDefault();
        void make();
      }}
      onKeyDown={(event) => {
        // On a card Enter would only choose it again.
        if (event.key !== 'Enter' || !(event.target instanceof HTMLElement) || event.target.role !== 'radio') return;
        event.preventDefault();
        void make();
      }}
    >
      <Choices label={TITLES.site} choices={choices} chosen={it.site.value} onChoose={choose} onTake={choose} />
      {it.findings.value.map(({ code, what, cure }) => (
        <p key={code} class="new-site-note" role="alert">
          <b>{what}</b> {cure}
        </p>
      ))}
      <div class="row">
        <Back it={it} />
        <label class="field grow">
          Name of the layout
          <input
            class="remark"
            maxLength={56}
            placeholder="My layout"
            value={it.name.value}
            onInput={(event) => {
              it.name.value = event.currentTarget.value;
            }}
          />
        </label>
        <button type="submit" class="button strong start-go">
          Build it and light the lamps
        </button>
      </div>
    </form>
  );
}

function Making({ it }: { readonly it: StartModel }) {
  const { model, surface } = usePanel();
  const head = useRef<HTMLHeadingElement>(null);
  const task = model.boardAtHand.value?.state.value.task ?? null;
  const isFailed = it.progress.value === 'failed';
  useEffect(() => head.current?.focus(), [isFailed]);
  if (isFailed) {
    return (
      <>
        <h3 ref={head} tabIndex={-1}>
          The layout is open, but it does not run yet
        </h3>
        <p>
          {model.trouble.value?.problem.what ?? 'The board did not take it.'} Your layout is safe: mend that, then press
          Send.
        </p>
        <button
          type="button"
          class="button strong start-go"
          onClick={() => {
            surface.sheet.value = 'board';
          }}
        >
          Look at the board
        </button>
      </>
    );
  }
  return (
    <>
      <h3 ref={head} tabIndex={-1}>
        Building it
      </h3>
      <p role="status">The layout goes to the board. In a moment its lamps are lit.</p>
      {task && <progress max={Math.max(1, task.total)} value={task.done} aria-label="Done so far" />}
    </>
  );
}
