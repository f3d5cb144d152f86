import { deflateSync, inflateSync } from 'node:zlib';

interface Table {
  readonly tag: number;
  readonly sum: number;
  readonly bytes: Uint8Array;
}

/** WOFF 1.0 (W3C): a header of 44 bytes, then 20 bytes a table: tag, offset, packed and plain length, sum. */
const WOFF_HEADER = 44;
const WOFF_ENTRY = 20;
/** OpenType: a header of 12 bytes, then 16 bytes a table: tag, sum, offset, length. */
const SFNT_HEADER = 12;
const SFNT_ENTRY = 16;

const padded = (length: number) => (length + 3) & ~3;
const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

function tablesOfSfnt(sfnt: Uint8Array): Table[] {
  const view = viewOf(sfnt);
  return Array.from({ length: view.getUint16(4) }, (_, n) => {
    const at = SFNT_HEADER + n * SFNT_ENTRY;
    const offset = view.getUint32(at + 8);
    return {
      tag: view.getUint32(at),
      sum: view.getUint32(at + 4),
      bytes: sfnt.subarray(offset, offset + view.getUint32(at + 12)),
    };
  });
}

/** A WOFF font unpacked, as a TTF: what a font file was before it was packed for the web. */
export function sfntOfWoff(woff: Uint8Array): Uint8Array {
  const view = viewOf(woff);
  const tables = Array.from({ length: view.getUint16(12) }, (_, n) => {
    const at = WOFF_HEADER + n * WOFF_ENTRY;
    const [offset, packed, plain] = [4, 8, 12].map((k) => view.getUint32(at + k)) as [number, number, number];
    const stored = woff.subarray(offset, offset + packed);
    return {
      tag: view.getUint32(at),
      sum: view.getUint32(at + 16),
      bytes: packed < plain ? new Uint8Array(inflateSync(stored)) : stored,
    };
  });
  const start = SFNT_HEADER + tables.length * SFNT_ENTRY;
  const out = new Uint8Array(start + tables.reduce((sum, table) => sum + padded(table.bytes.length), 0));
  const to = viewOf(out);
  to.setUint32(0, view.getUint32(4));
  to.setUint16(4, tables.length);
  const power = Math.floor(Math.log2(tables.length));
  to.setUint16(6, 16 * 2 ** power);
  to.setUint16(8, power);
  to.setUint16(10, 16 * (tables.length - 2 ** power));
  let offset = start;
  for (const [n, { tag, sum, bytes }] of tables.entries()) {
    const at = SFNT_HEADER + n * SFNT_ENTRY;
    for (const [k, value] of [tag, sum, offset, bytes.length].entries()) to.setUint32(at + 4 * k, value);
    out.set(bytes, offset);
    offset += padded(bytes.length);
  }
  return out;
}

/** A TTF packed as WOFF, each table changed by `change` first; the packing itself stays right. */
export function woffOfSfnt(sfnt: Uint8Array, change: (table: Uint8Array) => Uint8Array): Uint8Array {
  const tables = tablesOfSfnt(sfnt).map(({ tag, sum, bytes }) => {
    const plain = change(bytes);
    const packed = new Uint8Array(deflateSync(plain));
    return { tag, sum, plain: plain.length, stored: packed.length < plain.length ? packed : plain };
  });
  const start = WOFF_HEADER + tables.length * WOFF_ENTRY;
  const out = new Uint8Array(start + tables.reduce((sum, table) => sum + padded(table.stored.length), 0));
  const to = viewOf(out);
  to.setUint32(0, 0x774f4646);
  to.setUint32(4, viewOf(sfnt).getUint32(0));
  to.setUint32(8, out.length);
  to.setUint16(12, tables.length);
  to.setUint32(16, sfnt.length);
  let offset = start;
  for (const [n, { tag, sum, plain, stored }] of tables.entries()) {
    const at = WOFF_HEADER + n * WOFF_ENTRY;
    for (const [k, value] of [tag, offset, stored.length, plain, sum].entries())
      to.setUint32(at + 4 * k, value);
    out.set(stored, offset);
    offset += padded(stored.length);
  }
  return out;
}
