/**
 * What a picture is, by its own bytes: a name or a type that came along is not believed. PNG: W3C PNG
 * specification, chapters 5.2 and 11.2.1. JPEG: ITU-T T.81, annex B. WebP: RFC 9649, chapters 2 and 3.
 */

export interface PictureKind {
  readonly type: 'image/png' | 'image/jpeg' | 'image/webp';
  readonly extension: 'png' | 'jpg' | 'webp';
  /** Pixels, as stored: a photo that was taken upright may lie on its side. */
  readonly width: number;
  readonly height: number;
}

/** Null when the bytes are none of the three, or end before they say how large the picture is. */
export function kindOf(bytes: Uint8Array): PictureKind | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    return png(view) ?? jpeg(view) ?? webp(view);
  } catch (error) {
    // Reading past the end.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function png(view: DataView): PictureKind | null {
  const isPng = view.getUint32(0) === 0x89504e47 && view.getUint32(4) === 0x0d0a1a0a;
  if (!isPng || text(view, 12) !== 'IHDR') return null;
  return sized({ type: 'image/png', extension: 'png', width: view.getUint32(16), height: view.getUint32(20) });
}

/** Frame headers say the size; all markers but the ones for arithmetic tables and extensions are frames here. */
const NO_FRAMES = [0xc4, 0xc8, 0xcc];

function jpeg(view: DataView): PictureKind | null {
  if (view.getUint16(0) !== 0xffd8) return null;
  for (let at = 2; at < view.byteLength; ) {
    if (view.getUint8(at) !== 0xff) return null;
    const marker = view.getUint8(at + 1);
    // Any number of FF may stand before a marker.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker >= 0xc0 && marker <= 0xcf && !NO_FRAMES.includes(marker)) {
      const [height, width] = [view.getUint16(at + 5), view.getUint16(at + 7)];
      return sized({ type: 'image/jpeg', extension: 'jpg', width, height });
    }
    // The scan or the end before any frame.
    if (marker === 0xda || marker === 0xd9) return null;
    const hasLength = marker !== 0x01 && (marker < 0xd0 || marker > 0xd7);
    at += 2 + (hasLength ? Math.max(2, view.getUint16(at + 2)) : 0);
  }
  return null;
}

function webp(view: DataView): PictureKind | null {
  if (text(view, 0) !== 'RIFF' || text(view, 8) !== 'WEBP') return null;
  const found = { type: 'image/webp', extension: 'webp' } as const;
  const data = 20;
  switch (text(view, 12)) {
    case 'VP8 ': {
      const isKey = (view.getUint8(data) & 1) === 0 && view.getUint16(data + 3) === 0x9d01;
      if (!isKey || view.getUint8(data + 5) !== 0x2a) return null;
      const [width, height] = [view.getUint16(data + 6, true) & 0x3fff, view.getUint16(data + 8, true) & 0x3fff];
      return sized({ ...found, width, height });
    }
    case 'VP8L': {
      if (view.getUint8(data) !== 0x2f) return null;
      const bits = view.getUint32(data + 1, true);
      return sized({ ...found, width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 });
    }
    case 'VP8X':
      return sized({ ...found, width: threeBytes(view, data + 4) + 1, height: threeBytes(view, data + 7) + 1 });
    default:
      return null;
  }
}

function sized(kind: PictureKind): PictureKind | null {
  return kind.width > 0 && kind.height > 0 ? kind : null;
}

function text(view: DataView, at: number): string {
  return String.fromCharCode(...[0, 1, 2, 3].map((step) => view.getUint8(at + step)));
}

function threeBytes(view: DataView, at: number): number {
  return view.getUint16(at, true) + view.getUint8(at + 2) * 0x10000;
}
