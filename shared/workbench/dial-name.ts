/** A dial as people call it, the same in log and panel. */
import { uncapital } from '../findings/capital.ts';

export interface NamedDials {
  readonly name: string;
  readonly dials: readonly { readonly id: string; readonly name: string }[];
}

/** "Market Cross green of Fore Street"; null for a dial that the site does not have. */
export function dialName({ name, dials }: NamedDials, dial: number): string | null {
  const named = dials[dial];
  if (!named) return null;
  const green = named.id.startsWith('green-') && /^Green, (.+)$/.exec(named.name)?.[1];
  return `${name} ${green ? `green of ${green}` : uncapital(named.name)}`;
}
