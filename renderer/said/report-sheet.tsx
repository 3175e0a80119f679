import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { usePanel } from '../model/context.ts';

/** The text for asking for help, to be read before it is saved. */
export function ReportSheet() {
  const { model, surface } = usePanel();
  const report = useSignal<{ readonly name: string; readonly text: string } | null>(null);
  useEffect(() => {
    void model.ask('makeReport', {}).then((outcome) => {
      if (outcome.ok) report.value = outcome.value;
    });
  }, [model, report]);
  const { value } = report;
  return (
    <>
      <p>
        It tells about the app, the system, the boards and what was said on the line, with nothing private in it. Read
        it before you give it away.
      </p>
      <div class="row">
        <button
          type="button"
          class="button strong"
          aria-disabled={value === null}
          onClick={() => value && surface.saveFile(value.name, value.text)}
        >
          Save it as a file
        </button>
        {value && <span class="soft">{value.name}</span>}
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
      <section class="report" tabIndex={0} aria-label="Text of the report">
        <pre>{value?.text ?? 'Writing it …'}</pre>
      </section>
    </>
  );
}
