import { mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { kindOf } from '../../electron/host/pictures/kind.ts';
import { pictureCalls } from '../../electron/host/pictures/picture-calls.ts';
import { MOST_BYTES } from '../../electron/host/pictures/picture-store.ts';
import type { CallName } from '../../shared/workbench/contract.ts';
import { answerCall, type Handlers } from '../../shared/workbench/serve.ts';
import { PICTURES, SIZE } from '../fixtures/pictures.ts';

function host() {
  const data = mkdtempSync(join(tmpdir(), 'amberwick-pictures-'));
  onTestFinished(() => rmSync(data, { recursive: true, force: true }));
  const folder = join(data, 'pictures');
  const handlers = pictureCalls(folder) as unknown as Handlers;
  const call = async (name: CallName, args: unknown) => {
    const outcome = await answerCall(handlers, name, args);
    return outcome.ok ? { value: outcome.value as Record<string, unknown> } : { code: outcome.problem.code };
  };
  return { data, folder, call, add: (base64: string) => call('addPicture', { name: 'track.png', base64 }) };
}

const bytes = (base64: string): Buffer => Buffer.from(base64, 'base64');

/** The simple form of a WebP: the image chunk of an extended file alone. */
function simpleWebp(base64: string): Buffer {
  const whole = bytes(base64);
  for (let at = 12; at < whole.length; ) {
    const size = whole.readUInt32LE(at + 4);
    const end = at + 8 + size + (size % 2);
    if (whole.toString('latin1', at, at + 3) === 'VP8' && whole[at + 3] !== 0x58) {
      const chunk = whole.subarray(at, end);
      const head = Buffer.from('RIFF\0\0\0\0WEBP', 'latin1');
      head.writeUInt32LE(4 + chunk.length, 4);
      return Buffer.concat([head, chunk]);
    }
    at = end;
  }
  throw new Error('no image chunk');
}

test('PNG, JPEG and WebP in all its forms are known by their bytes, with their sizes', () => {
  expect(kindOf(bytes(PICTURES.png))).toEqual({ type: 'image/png', extension: 'png', ...SIZE });
  expect(kindOf(bytes(PICTURES.jpeg))).toEqual({ type: 'image/jpeg', extension: 'jpg', ...SIZE });
  const webp = { type: 'image/webp', extension: 'webp', ...SIZE };
  expect(kindOf(bytes(PICTURES.webpAlpha))).toEqual(webp);
  const [lossy, lossless] = [simpleWebp(PICTURES.webpLossy), simpleWebp(PICTURES.webpLossless)];
  expect([lossy, lossless].map((it) => it.toString('latin1', 12, 16))).toEqual(['VP8 ', 'VP8L']);
  expect([kindOf(lossy), kindOf(lossless)]).toEqual([webp, webp]);
});

test('a picture that is cut off anywhere in its head is none, and reading it ends', () => {
  const heads = { png: 24, jpeg: 163, webpAlpha: 30 } as const;
  for (const [name, head] of Object.entries(heads)) {
    const whole = bytes(PICTURES[name as keyof typeof heads]);
    for (let length = 0; length < head; length++) expect(kindOf(whole.subarray(0, length))).toBe(null);
  }
  // Segments of length zero lead nowhere.
  expect(kindOf(Buffer.from('ffd8ffe00000ffe00000'.repeat(50), 'hex'))).toBe(null);
});

test('a picture is kept under the digest of its bytes and comes back byte for byte', async () => {
  const { folder, add, call } = host();
  for (const [name, type] of [
    ['png', 'image/png'],
    ['jpeg', 'image/jpeg'],
    ['webpLossy', 'image/webp'],
  ] as const) {
    const base64 = PICTURES[name];
    const { value } = await add(base64);
    expect(value).toMatchObject(SIZE);
    expect(await call('picture', { id: value?.id })).toEqual({ value: { type, base64 } });
  }
  expect(readdirSync(folder).map((it) => it.replace(/^[0-9a-f]{64}\./, ''))).toHaveLength(3);
  // The same picture again is the same file.
  await add(PICTURES.png);
  expect(readdirSync(folder)).toHaveLength(3);
});

test('what is no picture is refused, whatever it is called: drawings with scripts, pages, programs', async () => {
  const { data, add } = host();
  const texts = ['<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>', '<!doctype html>', 'GIF89a', ''];
  for (const text of texts) expect(await add(Buffer.from(text).toString('base64'))).toEqual({ code: 'badPicture' });
  const empty = bytes(PICTURES.png);
  empty.writeUInt32BE(0, 16);
  expect(await add(empty.toString('base64'))).toEqual({ code: 'badPicture' });
  expect(readdirSync(data)).toEqual([]);
});

test('more than 10 MB, or more pixels than a plan can bear, is refused', async () => {
  const { data, add } = host();
  const padded = Buffer.concat([bytes(PICTURES.png), Buffer.alloc(MOST_BYTES)]);
  expect(await add(padded.toString('base64'))).toEqual({ code: 'pictureTooLarge' });
  const vast = bytes(PICTURES.png);
  vast.writeUInt32BE(20_000, 16);
  vast.writeUInt32BE(20_000, 20);
  expect(await add(vast.toString('base64'))).toEqual({ code: 'pictureTooLarge' });
  expect(await add('A'.repeat(14_000_001))).toEqual({ code: 'badRequest' });
  expect(readdirSync(data)).toEqual([]);
});

test('nothing but kept pictures can be had: no path, no link, no other file, no altered picture', async () => {
  const { data, folder, call, add } = host();
  const { value } = await add(PICTURES.png);
  const id = String(value?.id);
  writeFileSync(join(data, 'secret.png'), bytes(PICTURES.jpeg));
  const paths = ['../secret', '../secret.png', `../pictures/${id}`, `${id}.png`, `${id}/../${id}`, '', '..', `${id}\0`];
  for (const path of [...paths, id.toUpperCase(), `${id} `, 'C:\\secret.png', 7, null]) {
    expect(await call('picture', { id: path })).toEqual({ code: 'badRequest' });
  }
  const other = (digit: string): string => digit.repeat(64);
  // Names that are well formed, but the file is a link, a folder, another picture, or a text.
  symlinkSync(join(data, 'secret.png'), join(folder, `${other('a')}.png`));
  symlinkSync('/etc/passwd', join(folder, `${other('b')}.png`));
  mkdirSync(join(folder, `${other('c')}.png`));
  writeFileSync(join(folder, `${other('d')}.png`), bytes(PICTURES.png));
  writeFileSync(join(folder, `${other('e')}.png`), 'a text');
  for (const digit of ['a', 'b', 'c', 'd', 'e', 'f']) {
    expect(await call('picture', { id: other(digit) })).toEqual({ code: 'noPicture' });
  }
  // A picture that was changed on the disk is no longer the one that the layout names.
  const file = join(folder, `${id}.png`);
  writeFileSync(file, bytes(PICTURES.jpeg));
  expect(await call('picture', { id })).toEqual({ code: 'noPicture' });
  // Choosing it again mends it.
  await add(PICTURES.png);
  expect(await call('picture', { id })).toMatchObject({ value: { type: 'image/png' } });
});

test('where the disk takes nothing, it is said and the app goes on', async () => {
  const { folder, add } = host();
  writeFileSync(folder, 'a file in the place of the folder');
  expect(await add(PICTURES.png)).toEqual({ code: 'pictureNotKept' });
});
