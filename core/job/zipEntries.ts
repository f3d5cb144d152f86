import { strFromU8 } from 'fflate';

/** A file within a zip, as the zip's directory tells of it. */
export interface ZipEntry {
  readonly name: string;
  /** Its bytes as they lie in the zip; not a copy. */
  readonly packed: Uint8Array;
  /** Raw deflate; else the bytes are stored as they are. */
  readonly deflated: boolean;
  /** Bytes once unpacked, by the directory's word: nobody has counted them yet. */
  readonly size: number;
}

/** PKWARE APPNOTE 6.3.10: what records begin with (4.3), and the longest comment behind the last one. */
const END = 0x06054b50;
const END_64 = 0x06064b50;
const LOCATOR_64 = 0x07064b50;
const END_BYTES = 22;
const LONGEST_COMMENT = 0xffff;
/** Stands where a number of a zip64 file lies in an extra field instead (4.5.3). */
const ELSEWHERE = 0xffffffff;
const UTF_8 = 0x0800;

const eight = (view: DataView, at: number): number =>
  view.getUint32(at, true) + view.getUint32(at + 4, true) * 2 ** 32;

/** The end record's place, from the end of the file on. */
function endRecord(view: DataView): number {
  const first = Math.max(0, view.byteLength - END_BYTES - LONGEST_COMMENT);
  for (let at = view.byteLength - END_BYTES; at >= first; at--)
    if (view.getUint32(at, true) === END) return at;
  throw new RangeError('The zip has no end.');
}

/** How many entries the directory has and where it begins. */
function directory(view: DataView): { count: number; start: number } {
  const end = endRecord(view);
  if (end >= 20 && view.getUint32(end - 20, true) === LOCATOR_64) {
    const far = view.getUint32(end - 12, true);
    if (view.getUint32(far, true) === END_64)
      return { count: view.getUint32(far + 32, true), start: view.getUint32(far + 48, true) };
  }
  return { count: view.getUint16(end + 8, true), start: view.getUint32(end + 16, true) };
}

/** Sizes and place of an entry; in a zip64 file, of its extra field where they did not fit. */
function placed(view: DataView, at: number, extraAt: number, extraEnd: number): [number, number, number] {
  const given = [at + 24, at + 20, at + 42].map((field) => view.getUint32(field, true));
  for (let field = extraAt; field + 4 <= extraEnd; field += 4 + view.getUint16(field + 2, true)) {
    if (view.getUint16(field, true) !== 1) continue;
    let next = field + 4;
    for (const [i, number] of given.entries())
      if (number === ELSEWHERE) {
        given[i] = eight(view, next);
        next += 8;
      }
  }
  return given as [number, number, number];
}

/**
 * What a zip holds (PKWARE APPNOTE 6.3.10, 4.3.12), in the order of its directory; nothing is unpacked. Throws a
 * `RangeError` where the file is cut short or says what can not be.
 */
export function* zipEntries(bytes: Uint8Array): Generator<ZipEntry> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { count, start } = directory(view);
  let at = start;
  for (let i = 0; i < count; i++) {
    const nameAt = at + 46;
    const extraAt = nameAt + view.getUint16(at + 28, true);
    const extraEnd = extraAt + view.getUint16(at + 30, true);
    const method = view.getUint16(at + 10, true);
    const [size, packedSize, localAt] = placed(view, at, extraAt, extraEnd);
    const from = localAt + 30 + view.getUint16(localAt + 26, true) + view.getUint16(localAt + 28, true);
    if (from + packedSize > bytes.length) throw new RangeError('An entry ends beyond the zip.');
    if (method !== 0 && method !== 8) throw new RangeError(`An entry is packed by method ${method}.`);
    const latin = (view.getUint16(at + 8, true) & UTF_8) === 0;
    yield {
      name: strFromU8(bytes.subarray(nameAt, extraAt), latin),
      packed: bytes.subarray(from, from + packedSize),
      deflated: method === 8,
      size,
    };
    at = extraEnd + view.getUint16(at + 32, true);
  }
}
