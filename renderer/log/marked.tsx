import { marksIn, type Search } from '../../shared/workbench/story/search.ts';

/** A text in which what is looked for is marked. */
export function Marked({ text, search }: { readonly text: string; readonly search: Search }) {
  if (search.words.length === 0) return <>{text}</>;
  return (
    <>{marksIn(search, text).map(({ text: piece, isMark }, at) => (isMark ? <mark key={at}>{piece}</mark> : piece))}</>
  );
}
