import { useSignal } from '@preact/signals';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { clockTime } from './clock-time.ts';

/** What happened in this session, newest first, and a line of one's own. */
export function SessionLog() {
  const { model } = usePanel();
  const text = useSignal('');
  const entries = model.log.value.toReversed();
  return (
    <section class="log" aria-label="Session log">
      <header class="row">
        <h2>Session log</h2>
        <CommandButton id="save-log" />
      </header>
      <form
        class="row"
        onSubmit={async (event) => {
          event.preventDefault();
          const remark = text.value.trim();
          if (remark === '') return;
          const outcome = await model.ask('remark', { text: remark });
          if (outcome.ok) text.value = '';
        }}
      >
        <input
          id="remark"
          class="remark"
          aria-label="Remark"
          placeholder="A remark of yours"
          maxLength={2000}
          value={text}
          onInput={(event) => {
            text.value = event.currentTarget.value;
          }}
        />
        <button type="submit" class="button">
          Add
        </button>
      </form>
      {entries.length === 0 && <p>Nothing has happened yet.</p>}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
      <ol class="log-entries" tabIndex={0} aria-label="Entries, newest first">
        {entries.map((entry) => (
          <li key={entry.number} data-kind={entry.kind}>
            <time dateTime={entry.at}>{clockTime(entry.at)}</time>
            <span>
              {entry.text}
              {entry.frames && <Said lines={entry.frames} />}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}

/** What was said before it happened; folded, because few want it. */
function Said({ lines }: { readonly lines: readonly string[] }) {
  return (
    <details class="said">
      <summary>{lines.length === 1 ? '1 line' : `${lines.length} lines`}</summary>
      <ol>
        {lines.map((line, at) => (
          <li key={at}>{line}</li>
        ))}
      </ol>
    </details>
  );
}
