import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { typed } from './typed.ts';

const published = readFileSync(new URL('../../shared/layout/layout.schema.json', import.meta.url), 'utf8');

test('schema prints what is published, and is whole as JSON, too', async () => {
  const { exit, out } = await typed('schema');
  expect([exit, out]).toEqual([0, published]);
  const json = JSON.parse((await typed('schema', '--json')).out);
  expect(json).toMatchObject({ ok: true, schema: JSON.parse(published) });
});
