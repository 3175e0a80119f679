/** No sheet without a place in the list of screens, and no screen without its pictures. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { SHEETS } from '../../renderer/views/sheets.ts';
import { LARGEST, pictureOf, SCREENS, THEMES } from '../../scripts/screens/screens.ts';
import { STATES } from './states.ts';

const PICTURES = fileURLToPath(new URL('../../renderer/pictures', import.meta.url));

test('every sheet is among the screens that are looked at', () => {
  const shown = [...SCREENS, ...STATES].map(({ sheet }) => sheet);
  expect(Object.keys(SHEETS).filter((sheet) => !shown.includes(sheet))).toEqual([]);
});

test('every screen has its picture in both looks, each small enough for slow lines', () => {
  const wanted = SCREENS.flatMap((screen) => THEMES.map((theme) => pictureOf(screen, theme))).sort();
  const there = readdirSync(PICTURES).sort();
  expect(there).toEqual(wanted);
  for (const name of wanted) expect(statSync(join(PICTURES, name)).size).toBeLessThanOrEqual(LARGEST);
});

test('no two screens have the same name', () => {
  const names = SCREENS.map(({ name }) => name);
  expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
});
