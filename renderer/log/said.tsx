/** What was said before it happened; folded, because few want it. */
export function Said({ lines }: { readonly lines: readonly string[] }) {
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
