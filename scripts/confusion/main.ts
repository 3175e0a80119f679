/**
 * `npm run confusion`: tries the electrical self-check with the shipped firmware in the emulator, and writes what it
 * said into README.md. Some minutes.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { onTheChip } from './count.ts';
import { confusion, renewed } from './table.ts';

const file = new URL('../../README.md', import.meta.url);
const began = performance.now();
const made = confusion(onTheChip);
const text = renewed(readFileSync(file, 'utf8'), made);
if (text === null) {
  console.log(made);
  console.error('README.md has no marks for the table.');
  process.exitCode = 1;
} else {
  writeFileSync(file, text);
  console.log(`Renewed the tables of README.md in ${((performance.now() - began) / 1000).toFixed(0)} s.`);
}
