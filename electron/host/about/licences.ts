/**
 * The licences of everything that Amberwick is passed on with. From the sources they are read out of the installed
 * packages; a package has no such, so building one writes them into a file first.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';

const Licence = z.object({
  name: z.string(),
  version: z.string(),
  /** SPDX expression, or words where there is none. */
  licence: z.string(),
  text: z.string(),
});
export type Licence = z.infer<typeof Licence>;

/** The bundled program lies as deep below the root as this file. */
const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
/** Within the root; made by building a package. */
export const LICENCES_FILE = join('dist', 'licences.json');
const TEXTS = join('electron', 'host', 'about', 'texts');
const LOCK = 'package-lock.json';

/** Packages that end up in the panel or around it, although they are installed as tools only. */
const PARTS = ['@fontsource-variable/atkinson-hyperlegible-next', 'electron'];
/** What no package of npm stands for: in the firmware images, and in Electron. */
const OTHERS = [
  { name: 'avr-libc', version: '2.0.0', licence: 'BSD-3-Clause', file: 'avr-libc.txt' },
  { name: 'libgcc', version: '5.4.0', licence: 'GPL-3.0-or-later WITH GCC-exception-3.1', file: 'libgcc.txt' },
  { name: 'Chromium', version: '', licence: 'BSD-3-Clause and others', file: 'chromium.txt' },
];

/** Throws when they can neither be read nor collected: the program is not whole then. */
export function readLicences(root = ROOT): readonly Licence[] {
  if (existsSync(join(root, LOCK))) return collectLicences(root);
  return z.array(Licence).parse(JSON.parse(readFileSync(join(root, LICENCES_FILE), 'utf8')));
}

/** Amberwick's own first, then by name. Throws at a package without a licence text. */
export function collectLicences(root: string): readonly Licence[] {
  const lock: Lock = JSON.parse(readFileSync(join(root, LOCK), 'utf8'));
  const others = OTHERS.map(({ file, ...part }) => ({ ...part, text: readFileSync(join(root, TEXTS, file), 'utf8') }));
  const found = [...placesOf(lock).map((place) => licenceAt(join(root, place))), ...others];
  const once = new Map(found.map((licence) => [`${licence.name}@${licence.version}`, licence]));
  const sorted = [...once.values()].sort((a, b) => a.name.localeCompare(b.name, 'en'));
  return [{ ...licenceAt(root), name: 'Amberwick' }, ...sorted];
}

interface Lock {
  readonly packages: Readonly<Record<string, { readonly dev?: boolean; readonly optional?: boolean }>>;
}

/** Packages that run with the app. Optional ones are variants of the build tools for other computers. */
function placesOf({ packages }: Lock): readonly string[] {
  const running = Object.entries(packages)
    .filter(([place, { dev, optional }]) => place !== '' && !dev && !optional)
    .map(([place]) => place);
  return [...running, ...PARTS.map((name) => `node_modules/${name}`)];
}

function licenceAt(folder: string): Licence {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const file = readdirSync(folder).find((entry) => /^(licen[cs]e|copying)(\.(md|txt))?$/i.test(entry));
  if (!file) throw new Error(`${name} ${version} has no text of its licence`);
  return { name, version, licence: String(license), text: readFileSync(join(folder, file), 'utf8') };
}
