import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';

/** Folders of shared/ from the bottom up; a folder imports only from those before it. */
const ORDER = [
  'findings',
  'layout',
  'practice',
  'signals',
  'electrics',
  'scale',
  'table',
  'interpreter',
  'link',
  'lampcheck',
  'drawings',
  'workbench',
];

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const biome = join(root, 'node_modules', '@biomejs', 'biome', 'bin', 'biome');
let bench: string;

beforeAll(() => {
  bench = mkdtempSync(join(tmpdir(), 'amberwick-imports-'));
  const config = JSON.parse(readFileSync(join(root, 'biome.json'), 'utf8'));
  writeFileSync(join(bench, 'biome.json'), JSON.stringify({ ...config, $schema: undefined, vcs: { enabled: false } }));
});
afterAll(() => rmSync(bench, { recursive: true, force: true }));

/** Imports of one made-up file that the linter refuses. */
function refused(place: string, imports: readonly string[], use: (from: string, index: number) => string): string[] {
  const file = join(bench, place);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, `${imports.map(use).join('\n')}\n`);
  const args = [biome, 'lint', '--reporter=json', '--max-diagnostics=200', file];
  const { stdout } = spawnSync(process.execPath, args, { cwd: bench, encoding: 'utf8' });
  rmSync(file);
  const { diagnostics } = JSON.parse(stdout);
  const lines = diagnostics
    .filter(
      ({ category, severity }: { category: string; severity: string }) =>
        category.endsWith('noRestrictedImports') && severity === 'error',
    )
    .map(({ location }: { location: { start: { line: number } } }) => location.start.line);
  return imports.filter((_, index) => lines.includes(index + 1));
}

const asValue = (from: string, index: number): string => `export { a as a${index} } from '${from}';`;
const asType = (from: string, index: number): string => `export type { A as A${index} } from '${from}';`;

test.each(ORDER)('shared/%s may import what is below it and nothing above, types included', (folder) => {
  const at = ORDER.indexOf(folder);
  const imports = ORDER.filter((other) => other !== folder).map((other) => `../${other}/some.ts`);
  const above = ORDER.slice(at + 1).map((other) => `../${other}/some.ts`);
  expect(refused(`shared/${folder}/wrong.ts`, imports, asValue)).toEqual(above);
  expect(refused(`shared/${folder}/wrong.ts`, imports, asType)).toEqual(above);
});

test('only signals reaches up, and only for what a table is', () => {
  const imports = ['../table/model.ts', '../table/format.ts', '../table/encode.ts'];
  expect(refused('shared/signals/wrong.ts', imports, asType)).toEqual(['../table/encode.ts']);
  expect(refused('shared/practice/wrong.ts', imports, asType)).toEqual(imports);
});

test.each([
  [
    'shared/link/wrong.ts',
    [
      'node:fs',
      'electron',
      'serialport',
      'preact',
      'avr8js',
      '../../electron/host/clock.ts',
      '../../scripts/cli/main.ts',
    ],
  ],
  ['electron/host/wrong.ts', ['electron', '../../renderer/main.tsx', 'preact', '../../test/host/fake-board.ts']],
  ['electron/main.ts', ['../renderer/main.tsx', '@preact/signals']],
  ['renderer/model/wrong.ts', ['node:path', 'electron', 'serialport', '../../electron/host/clock.ts', 'avr8js']],
  ['scripts/cli/wrong.ts', ['../../renderer/main.tsx', '../../test/host/fake-board.ts']],
] as const)('%s may not import %j', (place, imports) => {
  const allowed = ['../findings/finding.ts'];
  expect(refused(place, [...imports, ...allowed], asValue)).toEqual(imports);
});

/** Names that a pure core has no use for; the linter denies the bare globals, this also the ways around it. */
const IMPURE = [/\bMath\.random\b/, /\bglobalThis\b/, /\bDate\.now\b/, /\bnew Date\b/, /\bimport\(['"]/];

test('shared/ has no clock, no randomness and no hidden imports', () => {
  const files = readdirSync(join(root, 'shared'), { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.ts'),
  );
  expect(files.length).toBeGreaterThan(20);
  const found = files.flatMap((file) => {
    const text = readFileSync(join(root, 'shared', file), 'utf8');
    return IMPURE.filter((name) => name.test(text)).map((name) => `${file}: ${name.source}`);
  });
  expect(found).toEqual([]);
});

test('a clock or the DOM in shared/ is refused by the linter', () => {
  const file = join(bench, 'shared/link/wrong.ts');
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, 'export const a = [Date, setTimeout, document, process, performance];\n');
  cpSync(join(root, 'tsconfig.json'), join(bench, 'tsconfig.json'));
  const run = spawnSync(process.execPath, [biome, 'lint', '--reporter=json', file], { cwd: bench, encoding: 'utf8' });
  rmSync(file);
  expect(run.status).toBe(1);
  expect(run.stdout.match(/noRestrictedGlobals/g)?.length).toBe(5);
});

test('the folders of shared/ are those of the order', () => {
  const folders = readdirSync(join(root, 'shared'), { withFileTypes: true }).filter((entry) => entry.isDirectory());
  expect(folders.map((entry) => entry.name).filter((name) => !ORDER.includes(name))).toEqual([]);
});

test('no file that is committed names a place of one computer', () => {
  const listed = execFileSync('git', ['ls-files'], { cwd: root, encoding: 'utf8' }).split('\n');
  const texts = listed.filter(
    (file) => /\.(ts|tsx|mjs|c|h|md|json|css|html)$/.test(file) && file !== 'package-lock.json',
  );
  const place = new RegExp(`["'\`( ]/(${['work', 'root'].join('|')})/`);
  expect(texts.filter((file) => place.test(readFileSync(join(root, file), 'utf8')))).toEqual([]);
});
