import { main } from '../../scripts/cli/main.ts';

/** Runs a command line as typed and keeps what it says. */
export async function typed(...words: readonly string[]) {
  let out = '';
  let err = '';
  const exit = await main(['node', 'amberwick', ...words], {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    progress: () => {},
  });
  return { exit, out, err, json: () => JSON.parse(out) };
}

/** Path of an example layout. */
export function example(name: string): string {
  return new URL(`../../shared/layout/examples/${name}.json`, import.meta.url).pathname;
}
