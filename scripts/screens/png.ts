/** Pictures as the browser gives them, read to pixels, and written with a palette: a quarter of the bytes. PNG, RFC 2083. */
import { crc32, deflateSync, inflateSync } from 'node:zlib';

/** Red, green, blue, alpha, a byte each, row by row. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array;
}

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/** Eight bits a channel, colours with or without alpha, not interlaced: what browsers write. Throws at anything else. */
export function readPng(file: Buffer): Pixels {
  if (!file.subarray(0, 8).equals(SIGNATURE)) throw new Error('No PNG file.');
  const data: Buffer[] = [];
  let header: Buffer | null = null;
  for (let at = 8; at + 12 <= file.length; ) {
    const length = file.readUInt32BE(at);
    const type = file.toString('latin1', at + 4, at + 8);
    const body = file.subarray(at + 8, at + 8 + length);
    if (type === 'IHDR') header = body;
    if (type === 'IDAT') data.push(body);
    at += length + 12;
  }
  if (!header) throw new Error('A PNG file without its header.');
  const [depth, colour, , , interlace] = header.subarray(8);
  const channels = colour === 6 ? 4 : colour === 2 ? 3 : 0;
  if (depth !== 8 || channels === 0 || interlace !== 0) throw new Error('A kind of PNG that is not read here.');
  const width = header.readUInt32BE(0);
  const height = header.readUInt32BE(4);
  return {
    width,
    height,
    rgba: withAlpha(unfiltered(inflateSync(Buffer.concat(data)), width, height, channels), channels),
  };
}

/** Chapter 6: each row begins with the number of its filter. */
function unfiltered(raw: Buffer, width: number, height: number, channels: number): Uint8Array {
  const stride = width * channels;
  const out = new Uint8Array(stride * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)] ?? 0;
    for (let x = 0; x < stride; x++) {
      const left = x >= channels ? (out[y * stride + x - channels] ?? 0) : 0;
      const up = y > 0 ? (out[(y - 1) * stride + x] ?? 0) : 0;
      const upLeft = y > 0 && x >= channels ? (out[(y - 1) * stride + x - channels] ?? 0) : 0;
      const add = [0, left, up, (left + up) >> 1, paeth(left, up, upLeft)][filter] ?? 0;
      out[y * stride + x] = (raw[y * (stride + 1) + 1 + x] ?? 0) + add;
    }
  }
  return out;
}

function paeth(left: number, up: number, upLeft: number): number {
  const guess = left + up - upLeft;
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - upLeft)];
  return a <= b && a <= c ? left : b <= c ? up : upLeft;
}

function withAlpha(bytes: Uint8Array, channels: number): Uint8Array {
  if (channels === 4) return bytes;
  const rgba = new Uint8Array((bytes.length / 3) * 4).fill(255);
  for (let pixel = 0; pixel * 3 < bytes.length; pixel++) rgba.set(bytes.subarray(pixel * 3, pixel * 3 + 3), pixel * 4);
  return rgba;
}

/** `palette`: red, green, blue of at most 256 colours; `indexes`: one for each pixel. */
export function writePng(width: number, height: number, palette: Uint8Array, indexes: Uint8Array): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3, 0, 0, 0], 8);
  const rows = Buffer.alloc((width + 1) * height);
  for (let y = 0; y < height; y++) rows.set(indexes.subarray(y * width, (y + 1) * width), y * (width + 1) + 1);
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', header),
    chunk('PLTE', Buffer.from(palette)),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, body: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), body]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(body.length);
  check.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, check]);
}
