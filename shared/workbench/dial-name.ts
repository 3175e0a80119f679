/** A dial as people call it, the same in log and panel. */
export interface NamedDials {
  readonly name: string;
  readonly dials: readonly { readonly id: string; readonly name: string }[];
}

/** "Market Cross green of Fore Street"; null for a dial that the site does not have. */
export function dialName({ name, dials }: NamedDials, dial: number): string | null {
  const named = dials[dial];
  if (!named) return null;
  const green = named.id.startsWith('green-') && /^Green, (.+)$/.exec(named.name)?.[1];
  return `${name} ${green ? `green of ${green}` : lower(named.name)}`;
}

function lower(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
