// Deflate: the fast twin of ../deflatePlain.ts, whose comments state the scheme and its limits.
import { codeLengths, codesFor } from './huffman';
import { at, more, put } from './lists';

const TOKENS: i32 = 16384;
const FAR: i32 = 32767;
const LITERALS: i32 = 286;
const DISTANCES: i32 = 30;
const END: i32 = 256;

// Where in the room its parts lie.
const BEFORE: usize = 131072;
const TOKEN_LIST: usize = BEFORE + 131072;
const OFTEN: usize = TOKEN_LIST + 65536;
const FAR_OFTEN: usize = OFTEN + 1280;
const ASKED: usize = FAR_OFTEN + 128;
const LENGTHS: usize = ASKED + 128;
const FAR_LENGTHS: usize = LENGTHS + 1280;
const CODES: usize = FAR_LENGTHS + 128;
const FAR_CODES: usize = CODES + 1280;
const KEYS: usize = FAR_CODES + 128;
const TREE: usize = KEYS + 1280;
const COUNTS: usize = TREE + 1280;
const SEQUENCE: usize = COUNTS + 128;
const STEPS: usize = SEQUENCE + 1536;
const STEP_OFTEN: usize = STEPS + 1536;
const STEP_LENGTHS: usize = STEP_OFTEN + 128;
const STEP_CODES: usize = STEP_LENGTHS + 128;

let room: usize = 0;
let bytesAt: usize = 0;
let pending: u64 = 0;
let pendingCount: i32 = 0;
let count: i32 = 0;
let extra: i32 = 0;
let covered: usize = 0;
let blockFrom: usize = 0;
let order: usize = 0;

// @ts-ignore: decorator
@inline
function bits(value: i32, length: i32): void {
  pending |= (<u64>value) << pendingCount;
  pendingCount += length;
  if (pendingCount >= 32) {
    store<u32>(bytesAt, <u32>pending);
    bytesAt += 4;
    pending >>>= 32;
    pendingCount -= 32;
  }
}

function toByte(): void {
  while (pendingCount > 0) {
    store<u8>(bytesAt++, <u8>pending);
    pending >>>= 8;
    pendingCount -= 8;
  }
  pending = 0;
  pendingCount = 0;
}

// @ts-ignore: decorator
@inline
function lengthBits(l: i32): i32 {
  return l < 8 || l == 255 ? 0 : 29 - clz(l);
}

// @ts-ignore: decorator
@inline
function distanceBits(d: i32): i32 {
  return d < 4 ? 0 : 30 - clz(d);
}

// @ts-ignore: decorator
@inline
function lengthSymbol(l: i32): i32 {
  if (l == 255) return 285;
  const more = lengthBits(l);
  return more == 0 ? 257 + l : 261 + 4 * more + ((l >> more) & 3);
}

// @ts-ignore: decorator
@inline
function distanceSymbol(d: i32): i32 {
  const more = distanceBits(d);
  return more == 0 ? d : 2 + 2 * more + ((d >> more) & 1);
}

// @ts-ignore: decorator
@inline
function fixedLength(symbol: i32): i32 {
  return symbol < 144 ? 8 : symbol < 256 ? 9 : symbol < 280 ? 7 : 8;
}

function code(): void {
  const near = room + CODES;
  const wide = room + FAR_CODES;
  const lengths = room + LENGTHS;
  const far = room + FAR_LENGTHS;
  codesFor(lengths, 288, near, room + COUNTS);
  codesFor(far, 32, wide, room + COUNTS);
  for (let i = 0; i < count; i++) {
    const token = at(room + TOKEN_LIST, i);
    if (token < 65536) {
      bits(at(near, token), at(lengths, token));
      continue;
    }
    const l = (token >> 16) - 3;
    const d = (token & 65535) - 1;
    const ls = lengthSymbol(l);
    const ds = distanceSymbol(d);
    bits(at(near, ls), at(lengths, ls));
    bits(l & ((1 << lengthBits(l)) - 1), lengthBits(l));
    bits(at(wide, ds), at(far, ds));
    bits(d & ((1 << distanceBits(d)) - 1), distanceBits(d));
  }
  bits(at(near, END), at(lengths, END));
}

function keep(last: i32): void {
  let from = blockFrom;
  while (true) {
    const size = <i32>min<usize>(65535, covered - from);
    bits(last != 0 && from + size == covered ? 1 : 0, 3);
    toByte();
    store<u16>(bytesAt, <u16>size);
    store<u16>(bytesAt + 2, <u16>(size ^ 65535));
    memory.copy(bytesAt + 4, from, size);
    bytesAt += 4 + size;
    from += size;
    if (from >= covered) break;
  }
}

/** Code lengths as runs: symbol, extra bits and their value, packed into one number each; returns how many. */
function stepsOf(lengths: usize, n: i32, steps: usize): i32 {
  let made = 0;
  for (let i = 0; i < n; ) {
    const length = at(lengths, i);
    let run = 1;
    while (i + run < n && at(lengths, i + run) == length) run++;
    i += run;
    if (length != 0) {
      put(steps, made++, length);
      run--;
    }
    while (run >= 3) {
      const part = min(run, length != 0 ? 6 : run < 11 ? 10 : 138);
      if (length != 0) put(steps, made++, 16 | (2 << 8) | ((part - 3) << 16));
      else if (part < 11) put(steps, made++, 17 | (3 << 8) | ((part - 3) << 16));
      else put(steps, made++, 18 | (7 << 8) | ((part - 11) << 16));
      run -= part;
    }
    for (; run > 0; run--) put(steps, made++, length);
  }
  return made;
}

function writeBlock(last: i32): void {
  const often = room + OFTEN;
  const farOften = room + FAR_OFTEN;
  const asked = room + ASKED;
  const lengths = room + LENGTHS;
  const far = room + FAR_LENGTHS;
  const keys = room + KEYS;
  const tree = room + TREE;
  const counts = room + COUNTS;
  put(often, END, 1);
  memory.fill(lengths, 0, 1280 + 128);
  memory.copy(asked, farOften, 128);
  for (let i = 0; i < 2; i++) if (at(asked, i) == 0) put(asked, i, 1);
  if (count == 0) put(often, 0, 1);
  codeLengths(often, LITERALS, 15, lengths, keys, tree, counts);
  codeLengths(asked, DISTANCES, 15, far, keys, tree, counts);
  let near = LITERALS;
  let wide = DISTANCES;
  while (at(lengths, near - 1) == 0) near--;
  while (at(far, wide - 1) == 0) wide--;
  const sequence = room + SEQUENCE;
  memory.copy(sequence, lengths, <usize>near << 2);
  memory.copy(sequence + (<usize>near << 2), far, <usize>wide << 2);
  const steps = room + STEPS;
  const made = stepsOf(sequence, near + wide, steps);
  const stepOften = room + STEP_OFTEN;
  const stepLengths = room + STEP_LENGTHS;
  memory.fill(stepOften, 0, 128);
  for (let i = 0; i < made; i++) more(stepOften, at(steps, i) & 255, 1);
  codeLengths(stepOften, 19, 7, stepLengths, keys, tree, counts);
  let orders = 19;
  while (at(stepLengths, at(order, orders - 1)) == 0) orders--;

  if (count == 0) put(often, 0, 0);
  let own = 17 + 3 * orders;
  for (let i = 0; i < made; i++) {
    const step = at(steps, i);
    own += at(stepLengths, step & 255) + ((step >> 8) & 255);
  }
  let fixed = 3;
  for (let i = 0; i < LITERALS; i++) {
    own += at(often, i) * at(lengths, i);
    fixed += at(often, i) * fixedLength(i);
  }
  for (let i = 0; i < DISTANCES; i++) {
    own += at(farOften, i) * at(far, i);
    fixed += at(farOften, i) * 5;
  }
  const size = <i32>(covered - blockFrom);
  const stored = size * 8 + 40 * max(1, (size + 65534) / 65535) + 2;

  if (stored < min(own, fixed) + extra) keep(last);
  else {
    if (fixed <= own) {
      bits((last != 0 ? 1 : 0) | 2, 3);
      for (let i = 0; i < 288; i++) put(lengths, i, fixedLength(i));
      for (let i = 0; i < 32; i++) put(far, i, 5);
    } else {
      bits((last != 0 ? 1 : 0) | 4, 3);
      bits(near - 257, 5);
      bits(wide - 1, 5);
      bits(orders - 4, 4);
      for (let i = 0; i < orders; i++) bits(at(stepLengths, at(order, i)), 3);
      codesFor(stepLengths, 19, room + STEP_CODES, counts);
      for (let i = 0; i < made; i++) {
        const step = at(steps, i);
        bits(at(room + STEP_CODES, step & 255), at(stepLengths, step & 255));
        bits(step >> 16, (step >> 8) & 255);
      }
    }
    code();
  }
  count = 0;
  extra = 0;
  blockFrom = covered;
  memory.fill(often, 0, 1280 + 128);
}

// @ts-ignore: decorator
@inline
function literal(byte: i32): void {
  put(room + TOKEN_LIST, count++, byte);
  more(room + OFTEN, byte, 1);
  covered++;
  if (count == TOKENS) writeBlock(0);
}

// @ts-ignore: decorator
@inline
function match(length: i32, distance: i32): void {
  put(room + TOKEN_LIST, count++, (length << 16) | distance);
  more(room + OFTEN, lengthSymbol(length - 3), 1);
  more(room + FAR_OFTEN, distanceSymbol(distance - 1), 1);
  extra += lengthBits(length - 3) + distanceBits(distance - 1);
  covered += length;
  if (count == TOKENS) writeBlock(0);
}

// @ts-ignore: decorator
@inline
function enter(input: usize, i: i32): i32 {
  const slot = ((load<u32>(input + i) & 0xffffff) * 0x9e3779b1) >>> 17;
  const found = at(room, slot);
  put(room + BEFORE, i & FAR, found);
  put(room, slot, i);
  return found;
}

/** How many bytes two places have in common, at most `most`; reads up to 7 beyond. */
// @ts-ignore: decorator
@inline
function common(a: usize, b: usize, most: i32): i32 {
  for (let same = 0; same < most; same += 8) {
    const differing = load<u64>(a + same) ^ load<u64>(b + same);
    if (differing != 0) return min(most, same + <i32>(ctz(differing) >> 3));
  }
  return most;
}

/**
 * Packs `size` bytes by themselves and appends them at `out`, which needs a thousandth more than `size` and 1 KiB; 8 bytes
 * beyond the input may be read. `space` is the room for lists (see the twin's caller for how much), `lengthOrder` the 19
 * numbers of RFC 1951, section 3.2.7. `state` holds the bits that wait, how many they are, and the checksum's two sums;
 * `last` ends the stream on a byte. Returns the bytes written.
 */
export function deflateChunk(
  input: usize,
  size: i32,
  out: usize,
  space: usize,
  lengthOrder: usize,
  state: usize,
  last: i32,
): i32 {
  room = space;
  order = lengthOrder;
  bytesAt = out;
  pending = load<u32>(state);
  pendingCount = load<i32>(state + 4);
  count = 0;
  extra = 0;
  blockFrom = input;
  covered = input;
  memory.fill(room, 255, BEFORE);
  memory.fill(room + OFTEN, 0, 1280 + 128);
  let held = 2;
  let heldDistance = 0;
  let waits = false;
  for (let i = 0; i < size; ) {
    let length = 2;
    let distance = 0;
    if (size - i >= 3) {
      let found = enter(input, i);
      if (held < 16) {
        const most = min(258, size - i);
        const here = input + i;
        let best = held;
        for (let tries = held >= 8 ? 8 : 32; found >= 0 && i - found <= FAR && tries > 0; tries--) {
          const there = input + found;
          if (best < most && load<u8>(there + best) == load<u8>(here + best)) {
            const same = common(there, here, most);
            if (same > best) {
              best = same;
              distance = i - found;
              if (same >= 128 || same == most) break;
            }
          }
          found = at(room + BEFORE, found & FAR);
        }
        if (distance > 0 && !(best == 3 && distance > 4096)) length = best;
      }
    }
    if (held >= 3 && length <= held) {
      const end = i - 1 + held;
      match(held, heldDistance);
      const entered = min(end, size - 2);
      for (let k = i + 1; k < entered; k++) enter(input, k);
      i = end;
      held = 2;
      waits = false;
    } else {
      if (waits) literal(load<u8>(input + i - 1));
      waits = true;
      held = length;
      heldDistance = distance;
      i++;
    }
  }
  if (waits) literal(load<u8>(input + size - 1));
  writeBlock(last);

  let a = load<u32>(state + 8);
  let b = load<u32>(state + 12);
  for (let i = 0; i < size; ) {
    // So many bytes as both sums hold in 32 bits before they are taken by the modulus.
    const end = min(size, i + 3800);
    for (; i < end; i++) {
      a += load<u8>(input + i);
      b += a;
    }
    a %= 65521;
    b %= 65521;
  }
  store<u32>(state + 8, a);
  store<u32>(state + 12, b);
  if (last != 0) toByte();
  else {
    while (pendingCount >= 8) {
      store<u8>(bytesAt++, <u8>pending);
      pending >>>= 8;
      pendingCount -= 8;
    }
  }
  store<u32>(state, <u32>pending);
  store<i32>(state + 4, pendingCount);
  return <i32>(bytesAt - out);
}
