import { crc32 } from 'node:zlib';
import type { Chance } from './random.ts';

/** Numbers that readers get wrong: nothing, ends of ranges, signs. */
const EDGES = [
  0, 1, 2, 0x7f, 0x80, 0xff, 0x7fff, 0x8000, 0xffff, 0x10000, 0x7fffffff, 0x80000000, 0xffffffff,
];

const joined = (...parts: readonly Uint8Array[]) => new Uint8Array(Buffer.concat(parts));

function edge(bytes: Uint8Array, random: Chance): Uint8Array {
  const out = bytes.slice();
  const view = new DataView(out.buffer);
  const size = random.pick([1, 2, 4] as const);
  if (out.length < size) return out;
  // Headers stand at the start and decide the most.
  const reach = random.int(2) === 0 ? Math.min(out.length, 256) : out.length;
  const at = random.int(Math.max(1, reach - size + 1));
  const value = random.pick(EDGES);
  const little = random.int(2) === 0;
  if (size === 1) view.setUint8(at, value & 0xff);
  else if (size === 2) view.setUint16(at, value & 0xffff, little);
  else view.setUint32(at, value, little);
  return out;
}

const CHANGES: readonly ((bytes: Uint8Array, other: Uint8Array, random: Chance) => Uint8Array)[] = [
  // Bits flipped here and there.
  (bytes, _, random) => {
    const out = bytes.slice();
    for (let n = 1 + random.int(12); n > 0 && out.length > 0; n--) {
      const at = random.int(out.length);
      out[at] = (out[at] as number) ^ (1 << random.int(8));
    }
    return out;
  },
  (bytes, _, random) => edge(bytes, random),
  (bytes, _, random) => edge(edge(bytes, random), random),
  // Cut off, or a stretch lost.
  (bytes, _, random) => bytes.slice(0, random.int(bytes.length + 1)),
  (bytes, _, random) => {
    const from = random.int(bytes.length + 1);
    const to = Math.min(bytes.length, from + 1 + random.int(64));
    return joined(bytes.subarray(0, from), bytes.subarray(to));
  },
  // A stretch said again, many times.
  (bytes, _, random) => {
    const from = random.int(bytes.length + 1);
    const part = bytes.subarray(from, from + 1 + random.int(200));
    const times = random.pick([1, 2, 50, 2000]);
    return joined(
      bytes.subarray(0, from),
      ...Array.from({ length: times }, () => part),
      bytes.subarray(from),
    );
  },
  // The start of one file and the end of another.
  (bytes, other, random) =>
    joined(bytes.subarray(0, random.int(bytes.length + 1)), other.subarray(random.int(other.length + 1))),
  // A stretch of noughts, ones or noise.
  (bytes, _, random) => {
    const out = bytes.slice();
    const from = random.int(out.length + 1);
    const fill = random.int(3);
    for (let i = from; i < Math.min(out.length, from + 1 + random.int(300)); i++)
      out[i] = fill === 0 ? 0 : fill === 1 ? 255 : random.int(256);
    return out;
  },
];

/** The file with one to three changes of its bytes. */
export function mutateBytes(good: Uint8Array, other: Uint8Array, random: Chance): Uint8Array {
  let bytes = new Uint8Array(good);
  for (let n = 1 + random.int(3); n > 0; n--)
    bytes = new Uint8Array(random.pick(CHANGES)(bytes, other, random));
  return bytes;
}

/** The chunks' check sums made true as far as chunks can be told (PNG specification, 5.3). */
export function withPngSums(bytes: Uint8Array): Uint8Array {
  const out = bytes.slice();
  const view = new DataView(out.buffer);
  for (let at = 8; at + 12 <= out.length; ) {
    const length = view.getUint32(at);
    if (at + 12 + length > out.length) break;
    view.setUint32(at + 8 + length, crc32(out.subarray(at + 4, at + 8 + length)));
    at += 12 + length;
  }
  return out;
}
