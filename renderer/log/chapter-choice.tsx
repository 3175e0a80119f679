import { clockText } from '../../shared/workbench/story/moment.ts';
import { usePanel } from '../model/context.ts';

/** A jump to a chapter of what is shown; nothing where there is only one. */
export function ChapterChoice() {
  const { model } = usePanel();
  const { logbook } = model;
  const chapters = logbook.shown.value;
  if (chapters.length < 2) return null;
  return (
    <select
      class="chapter-choice"
      aria-label="Go to a chapter"
      value=""
      onChange={(event) => {
        const { value } = event.currentTarget;
        event.currentTarget.value = '';
        if (value !== '') logbook.goTo.value = Number(value);
      }}
    >
      <option value="">{chapters.length} chapters</option>
      {chapters.map(({ key, from, title }) => (
        <option key={key} value={key}>
          {clockText(from)} {title}
        </option>
      ))}
    </select>
  );
}
