import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Finding } from '../../shared/findings/finding.ts';
import type { SiteTemplate } from '../../shared/workbench/calls/files.ts';
import { usePanel } from '../model/context.ts';
import { addText } from './copy.ts';

/** Sites that were kept as templates: added with one press, renamed, dropped. Nothing where there are none. */
export function Templates({ board, refused }: { readonly board: string; refused(findings: readonly Finding[]): void }) {
  const { model, surface } = usePanel();
  const list = useSignal<readonly SiteTemplate[]>([]);
  const renaming = useSignal<string | null>(null);
  const read = async (): Promise<void> => {
    const outcome = await model.ask('listTemplates', {});
    if (outcome.ok) list.value = outcome.value;
  };
  useEffect(() => void read(), []);
  const add = async ({ text, name }: SiteTemplate): Promise<void> => {
    const findings = await addText(model, text, { name, board, said: (called) => `Added ${called} (template).` });
    if (findings?.length === 0) surface.sheet.value = null;
    else refused(findings ?? []);
  };
  const rename = async ({ id, name, text }: SiteTemplate, next: string): Promise<void> => {
    renaming.value = null;
    if (next === '' || next === name) return;
    if ((await model.ask('keepTemplate', { name: next, text })).ok) await model.ask('dropTemplate', { id });
    await read();
  };
  if (list.value.length === 0) return null;
  return (
    <section class="templates" aria-label="Your templates">
      <h3>Your templates</h3>
      <ul class="layout-files">
        {list.value.map((template) => (
          <li key={template.id} class="row">
            {renaming.value === template.id ? (
              <input
                class="remark"
                aria-label={`New name of the template ${template.name}`}
                maxLength={80}
                value={template.name}
                ref={(field) => field?.focus()}
                onBlur={(event) => void rename(template, event.currentTarget.value.trim())}
                onKeyDown={(event) => {
                  if (event.key !== 'Enter') return;
                  event.preventDefault();
                  event.currentTarget.blur();
                }}
              />
            ) : (
              <button type="button" class="button layout-file" onClick={() => void add(template)}>
                <span class="layout-name">{template.name}</span>
                <span class="layout-where">{template.kind.replaceAll('-', ' ')}</span>
              </button>
            )}
            <button
              type="button"
              class="button"
              aria-label={`Rename the template ${template.name}`}
              onClick={() => {
                renaming.value = template.id;
              }}
            >
              Rename
            </button>
            <button
              type="button"
              class="button"
              aria-label={`Drop the template ${template.name}`}
              onClick={async () => {
                await model.ask('dropTemplate', { id: template.id });
                await read();
              }}
            >
              Drop
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
