/** The window around the panel: files, focus, light. */
import { signal } from '@preact/signals';
import type { Preferences } from './model/preferences.ts';
import type { Sheet, Surface } from './model/surface.ts';

export function createSurface(preferences: Preferences): Surface {
  preferences.theme.subscribe((theme) => {
    document.documentElement.dataset.theme = theme;
  });
  return {
    sheet: signal<Sheet>(null),
    under: signal<Sheet>(null),
    chapter: signal<string | null>(null),
    finder: signal(false),
    told: signal(null),
    chooseFile,
    saveFile,
    focus,
  };
}

function chooseFile(): Promise<{ name: string; text: string } | null> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = '.amberwick,.json,application/json';
    input.addEventListener('cancel', () => resolve(null));
    input.addEventListener('change', async () => {
      const file = input.files?.[0];
      resolve(file ? { name: file.name, text: await file.text() } : null);
    });
    input.click();
  });
}

const TYPES: Readonly<Record<string, string>> = {
  json: 'application/json',
  amberwick: 'application/json',
  jsonl: 'application/jsonl',
  svg: 'image/svg+xml',
  html: 'text/html;charset=utf-8',
  csv: 'text/csv;charset=utf-8',
  pdf: 'application/pdf',
};

function saveFile(name: string, content: string | Uint8Array<ArrayBuffer>): void {
  const address = URL.createObjectURL(
    new Blob([content], { type: TYPES[name.split('.').at(-1) ?? ''] ?? 'text/plain' }),
  );
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  URL.revokeObjectURL(address);
}

function focus(id: string): void {
  // The view with the element may only just be on its way.
  requestAnimationFrame(() => requestAnimationFrame(() => document.getElementById(id)?.focus()));
}
