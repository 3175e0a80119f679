import type { Finding } from './finding.ts';

type Words = Pick<Finding, 'what' | 'why' | 'cure'>;

export function error(code: string, path: string, words: Words): Finding {
  return { severity: 'error', code, path, ...words };
}

export function warning(code: string, path: string, words: Words): Finding {
  return { severity: 'warning', code, path, ...words };
}

export function note(code: string, path: string, words: Words): Finding {
  return { severity: 'note', code, path, ...words };
}

/** Turns `['sites', 1, 'stages', 0, 'green']` into `sites[1].stages[0].green`. */
export function pathText(steps: readonly PropertyKey[]): string {
  let text = '';
  for (const step of steps) {
    if (typeof step === 'number') text += `[${step}]`;
    else text += text === '' ? String(step) : `.${String(step)}`;
  }
  return text;
}
