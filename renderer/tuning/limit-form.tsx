import { useSignal } from '@preact/signals';
import { timeText } from '../../shared/workbench/words.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { type LimitDraft, readLimits, setLimits } from './limits.ts';

interface Props {
  readonly site: OpenSite;
  readonly dial: number;
  onDone(): void;
}

/** Other limits than the practice's, with the reason that goes into layout and log. */
export function LimitForm({ site, dial, onDone }: Props) {
  const { model } = usePanel();
  const limits = site.program.dials[dial];
  const named = site.names.dials[dial];
  const draft = useSignal<LimitDraft>({
    least: timeText(limits?.min ?? 0),
    greatest: timeText(limits?.max ?? 0),
    reason: named?.owner?.reason ?? '',
  });
  const wrong = useSignal<string | null>(null);
  const set = async (): Promise<void> => {
    const read = readLimits(site, dial, draft.value);
    wrong.value = 'wrong' in read ? read.wrong : null;
    if (!('wrong' in read) && (await setLimits(model, site, dial, read))) onDone();
  };
  const name = named?.name ?? '';
  const field = (key: keyof LimitDraft, words: string, label: string) => (
    <label class={`limit-field ${key}`}>
      <span>{words}</span>
      <input
        class="field"
        autoComplete="off"
        aria-label={`${label}: ${name}`}
        maxLength={key === 'reason' ? 200 : 12}
        value={draft.value[key]}
        onInput={(event) => {
          draft.value = { ...draft.value, [key]: event.currentTarget.value };
          wrong.value = null;
        }}
      />
    </label>
  );
  return (
    <form
      class="limit-form"
      aria-label={`Other limits: ${name}`}
      onSubmit={(event) => {
        event.preventDefault();
        void set();
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        onDone();
      }}
    >
      {field('least', 'Least', 'Least')}
      {field('greatest', 'Greatest', 'Greatest')}
      {field('reason', 'Reason', 'Reason for other limits')}
      {wrong.value !== null && (
        <p class="limit-wrong" role="alert">
          {wrong}
        </p>
      )}
      <div class="row">
        <button type="submit" class="button strong">
          Set these limits
        </button>
        <button type="button" class="button" onClick={onDone}>
          Leave them
        </button>
      </div>
    </form>
  );
}
