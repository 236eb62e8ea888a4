import { inflateSync } from 'node:zlib';

/** A letter of a face: how far it leads on and its outline, in the face's units, y upwards. */
export interface Glyph {
  readonly advance: number;
  readonly contours: readonly (readonly OutlinePoint[])[];
}

interface OutlinePoint {
  readonly x: number;
  readonly y: number;
  /** On the curve; else it draws the curve towards itself. */
  readonly on: boolean;
}

/** A face read from a WOFF file (W3C WOFF File Format 1.0) with TrueType outlines. */
export interface Face {
  readonly unitsPerEm: number;
  /** The letter of a code point; undefined where the face has none. */
  glyphOf(codePoint: number): Glyph | undefined;
}

/** Reads the tables that outlines need: `head`, `hhea`, `hmtx`, `loca`, `glyf`, `cmap` (OpenType). */
export function readFace(file: Uint8Array): Face {
  const tables = unpacked(file);
  const table = (tag: string): DataView => {
    const found = tables.get(tag);
    if (!found) throw new Error(`the face has no table ${tag}`);
    return found;
  };
  const [head, loca, glyf] = [table('head'), table('loca'), table('glyf')];
  const [hmtx, cmap] = [table('hmtx'), table('cmap')];
  const longOffsets = head.getInt16(50) === 1;
  const advances = table('hhea').getUint16(34);
  const offsetOf = (glyph: number): number =>
    longOffsets ? loca.getUint32(glyph * 4) : loca.getUint16(glyph * 2) * 2;
  const indexOf = codePoints(cmap);

  function contoursOf(glyph: number): OutlinePoint[][] {
    const at = offsetOf(glyph);
    if (at === offsetOf(glyph + 1)) return [];
    const contours = glyf.getInt16(at);
    return contours >= 0 ? simple(glyf, at, contours) : composite(at + 10);
  }

  function composite(start: number): OutlinePoint[][] {
    const parts: OutlinePoint[][] = [];
    for (let at = start, more = true; more; ) {
      const flags = glyf.getUint16(at);
      const index = glyf.getUint16(at + 2);
      at += 4;
      const words = (flags & 1) !== 0;
      if ((flags & 2) === 0) throw new Error('a composite letter is joined by points');
      const [dx, dy] = words
        ? [glyf.getInt16(at), glyf.getInt16(at + 2)]
        : [glyf.getInt8(at), glyf.getInt8(at + 1)];
      at += words ? 4 : 2;
      const share = (): number => {
        at += 2;
        return glyf.getInt16(at - 2) / 16384;
      };
      let [xx, xy, yx, yy] = [1, 0, 0, 1];
      if (flags & 8) xx = yy = share();
      else if (flags & 64) [xx, yy] = [share(), share()];
      else if (flags & 128) [xx, xy, yx, yy] = [share(), share(), share(), share()];
      for (const contour of contoursOf(index))
        parts.push(
          contour.map(({ x, y, on }) => ({
            x: xx * x + yx * y + dx,
            y: xy * x + yy * y + dy,
            on,
          })),
        );
      more = (flags & 32) !== 0;
    }
    return parts;
  }

  return {
    unitsPerEm: head.getUint16(18),
    glyphOf(codePoint) {
      const glyph = indexOf(codePoint);
      if (glyph === 0) return undefined;
      const advance = hmtx.getUint16(Math.min(glyph, advances - 1) * 4);
      return { advance, contours: contoursOf(glyph) };
    },
  };
}

function unpacked(file: Uint8Array): Map<string, DataView> {
  const woff = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (woff.getUint32(0) !== 0x774f4646) throw new Error('this is no WOFF file');
  const tables = new Map<string, DataView>();
  for (let index = 0; index < woff.getUint16(12); index++) {
    const at = 44 + index * 20;
    const tag = String.fromCharCode(...file.subarray(at, at + 4));
    const [offset, packed, whole] = [4, 8, 12].map((more) => woff.getUint32(at + more)) as [
      number,
      number,
      number,
    ];
    const bytes = file.subarray(offset, offset + packed);
    const table = packed < whole ? inflateSync(bytes) : bytes;
    tables.set(tag, new DataView(table.buffer, table.byteOffset, table.byteLength));
  }
  return tables;
}

/** The glyph of a code point by the segments of a format 4 table; 0 where there is none. */
function codePoints(cmap: DataView): (codePoint: number) => number {
  for (let index = 0; index < cmap.getUint16(2); index++) {
    const start = cmap.getUint32(4 + index * 8 + 4);
    if (cmap.getUint16(start) !== 4) continue;
    const segments = cmap.getUint16(start + 6) / 2;
    const [ends, starts] = [start + 14, start + 16 + segments * 2];
    const [deltas, ranges] = [starts + segments * 2, starts + segments * 4];
    return (codePoint) => {
      for (let at = 0; at < segments; at++) {
        if (codePoint > cmap.getUint16(ends + at * 2)) continue;
        const first = cmap.getUint16(starts + at * 2);
        if (codePoint < first) return 0;
        const [delta, range] = [cmap.getUint16(deltas + at * 2), cmap.getUint16(ranges + at * 2)];
        if (range === 0) return (codePoint + delta) & 0xffff;
        const glyph = cmap.getUint16(ranges + at * 2 + range + (codePoint - first) * 2);
        return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
      }
      return 0;
    };
  }
  throw new Error('the face has no table of code points that can be read');
}

function simple(glyf: DataView, start: number, contours: number): OutlinePoint[][] {
  const ends = Array.from({ length: contours }, (_, index) =>
    glyf.getUint16(start + 10 + index * 2),
  );
  const count = (ends.at(-1) ?? -1) + 1;
  let at = start + 10 + contours * 2;
  at += 2 + glyf.getUint16(at);
  const flags: number[] = [];
  while (flags.length < count) {
    const flag = glyf.getUint8(at++);
    flags.push(flag);
    if (flag & 8) for (let more = glyf.getUint8(at++); more > 0; more--) flags.push(flag);
  }
  const along = (short: number, same: number): number[] => {
    let value = 0;
    return flags.map((flag) => {
      if (flag & short) value += flag & same ? glyf.getUint8(at++) : -glyf.getUint8(at++);
      else if (!(flag & same)) {
        value += glyf.getInt16(at);
        at += 2;
      }
      return value;
    });
  };
  const [xs, ys] = [along(2, 16), along(4, 32)];
  const points = flags.map((flag, index) => ({
    x: xs[index] ?? 0,
    y: ys[index] ?? 0,
    on: (flag & 1) !== 0,
  }));
  return ends.map((end, index) => points.slice((ends[index - 1] ?? -1) + 1, end + 1));
}
