import type { CallResults } from '../../shared/workbench/contract.ts';

/** One name with its licence; the text is drawn when it is asked for. */
export function Licence({ of }: { readonly of: CallResults['about']['licences'][number] }) {
  return (
    <details class="about-licence">
      <summary>
        {of.name} {of.version}: {of.licence}
      </summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it may scroll, so the keyboard must reach it */}
      <pre tabIndex={0}>{of.text}</pre>
    </details>
  );
}
