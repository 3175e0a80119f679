/** The two files that hold an icon in several sizes, each as a PNG: ICO for Windows, ICNS for macOS. */

/** PNG bytes by edge, pixels. */
export type Pictures = ReadonlyMap<number, Uint8Array>;

/** Edges of an ICO; 256 is written as 0 in its directory. */
export const ICO_EDGES = [16, 24, 32, 48, 64, 128, 256] as const;

/** Types of an ICNS that hold PNG, by edge; an edge may stand for a half-size picture on a fine display, too. */
const ICNS_TYPES: readonly (readonly [string, number])[] = [
  ['ic11', 32],
  ['ic12', 64],
  ['ic07', 128],
  ['ic13', 256],
  ['ic08', 256],
  ['ic14', 512],
  ['ic09', 512],
  ['ic10', 1024],
];

export const ICNS_EDGES = [32, 64, 128, 256, 512, 1024] as const;

/** Header of 6 bytes, an entry of 16 for each picture, then the pictures. Throws when an edge is missing. */
export function icoOf(pictures: Pictures): Buffer {
  const images = ICO_EDGES.map((edge) => ({ edge, data: pictureOf(pictures, edge) }));
  const header = Buffer.alloc(6);
  header.writeUInt16LE(1, 2);
  header.writeUInt16LE(images.length, 4);
  let at = 6 + 16 * images.length;
  const entries = images.map(({ edge, data }) => {
    const entry = Buffer.alloc(16);
    entry.writeUInt8(edge % 256, 0);
    entry.writeUInt8(edge % 256, 1);
    entry.writeUInt16LE(1, 4);
    entry.writeUInt16LE(32, 6);
    entry.writeUInt32LE(data.length, 8);
    entry.writeUInt32LE(at, 12);
    at += data.length;
    return entry;
  });
  return Buffer.concat([header, ...entries, ...images.map(({ data }) => data)]);
}

/**
 * `icns`, the length of all, then for each picture its type, the length with these 8 bytes, and the PNG. `most` is the
 * largest edge that is put in.
 */
export function icnsOf(pictures: Pictures, most = 1024): Buffer {
  const types = ICNS_TYPES.filter(([, edge]) => edge <= most);
  const parts = types.map(([type, edge]) => chunk(type, pictureOf(pictures, edge)));
  return chunk('icns', Buffer.concat(parts));
}

function chunk(type: string, data: Uint8Array): Buffer {
  const head = Buffer.alloc(8);
  head.write(type, 'latin1');
  head.writeUInt32BE(data.length + 8, 4);
  return Buffer.concat([head, data]);
}

function pictureOf(pictures: Pictures, edge: number): Uint8Array {
  const found = pictures.get(edge);
  if (!found) throw new Error(`no picture of ${edge} pixels`);
  return found;
}
