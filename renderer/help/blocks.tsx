import type { Block } from './block.ts';

/** A chapter, or a part of one, as it is read. */
export function Blocks({ blocks }: { readonly blocks: readonly Block[] }) {
  return (
    <>
      {blocks.map((block, at) => (
        <OneBlock key={at} block={block} />
      ))}
    </>
  );
}

function OneBlock({ block }: { readonly block: Block }) {
  switch (block.is) {
    case 'heading':
      return <h4>{block.text}</h4>;
    case 'words':
      return <p>{block.text}</p>;
    case 'list':
      return (
        <ul class="plain">
          {block.items.map((item) => (
            <li key={item}>{item}</li>
          ))}
        </ul>
      );
    case 'steps':
      return (
        <ol class="help-steps">
          {block.items.map((item) => (
            <li key={item}>{item}</li>
          ))}
        </ol>
      );
    case 'terms':
      return (
        <dl class="keys">
          {block.rows.map(([term, meaning]) => (
            <div key={term}>
              <dt>
                <kbd>{term}</kbd>
              </dt>
              <dd>{meaning}</dd>
            </div>
          ))}
        </dl>
      );
    case 'troubles':
      return (
        <ul class="help-troubles">
          {block.rows.map(([what, why, next]) => (
            <li key={what + why}>
              <b>{what}</b>
              <span>{why}</span>
              <span class="help-next">{next}</span>
            </li>
          ))}
        </ul>
      );
  }
}
