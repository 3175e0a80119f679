/** Files of JSON that the app wrote itself, each whole or not there. */
import { mkdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { z } from 'zod';
import { writeWhole } from './whole-file.ts';

/** Null where there is no such file, or it is not of this shape. */
export function readJson<T>(file: string, shape: z.ZodType<T>): T | null {
  try {
    return shape.safeParse(JSON.parse(readFileSync(file, 'utf8'))).data ?? null;
  } catch {
    return null;
  }
}

/** Makes the folder where it is missing. Throws what the system says when it cannot. */
export function writeJson(file: string, value: unknown): void {
  mkdirSync(dirname(file), { recursive: true });
  writeWhole(file, JSON.stringify(value));
}
