import { codeLengths, codesFor, LONGEST, LONGEST_OF_LENGTHS } from './huffmanPlain.ts';

/** Bytes that are packed by themselves, so that little memory does for a picture of any size. */
export const CHUNK = 1 << 19;
/** Literals and matches of one block, which has its own codes. */
const TOKENS = 1 << 14;
/** Bytes that a match may lie back, one less than deflate allows. */
const FAR = 32767;
const SHORTEST = 3;
const LONGEST_MATCH = 258;
/** A match of three further back than this costs more than three literals (as a rule of thumb). */
const FAR_FOR_THREE = 4096;
/** Earlier places tried for a match; a quarter of them when there is one of `GOOD` bytes a byte before. */
const TRIES = 32;
const GOOD = 8;
/** A match so long is taken without a look at the next byte's; one so long ends the search. */
const LAZY = 16;
const NICE = 128;
const LITERALS = 286;
const DISTANCES = 30;
const END = 256;
/** In which order the lengths of the lengths' own codes are written (RFC 1951, section 3.2.7). */
export const LENGTH_ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];

/** Extra bits of a match's length less three, and of its distance less one. */
const lengthBits = (l: number) => (l < 8 || l === 255 ? 0 : 29 - Math.clz32(l));
const distanceBits = (d: number) => (d < 4 ? 0 : 30 - Math.clz32(d));
const lengthSymbol = (l: number) => {
  if (l === 255) return 285;
  const bits = lengthBits(l);
  return bits === 0 ? 257 + l : 261 + 4 * bits + ((l >> bits) & 3);
};
const distanceSymbol = (d: number) => {
  const bits = distanceBits(d);
  return bits === 0 ? d : 2 + 2 * bits + ((d >> bits) & 1);
};

/** Bits, the lowest first, appended to bytes. */
class Bits {
  bytes = new Uint8Array(1024);
  size = 0;
  private pending = 0;
  private count = 0;

  byte(value: number): void {
    if (this.size === this.bytes.length) {
      const more = new Uint8Array(this.size * 2);
      more.set(this.bytes);
      this.bytes = more;
    }
    this.bytes[this.size++] = value;
  }

  /** At most 16 bits. */
  put(value: number, count: number): void {
    this.pending |= value << this.count;
    this.count += count;
    for (; this.count >= 8; this.count -= 8, this.pending >>>= 8) this.byte(this.pending & 255);
  }

  toByte(): void {
    if (this.count > 0) this.put(0, 8 - this.count);
  }
}

/** The block's literals and matches, and how often each symbol occurs in it. */
class Block {
  readonly tokens = new Int32Array(TOKENS);
  readonly literals = new Int32Array(LITERALS);
  readonly distances = new Int32Array(DISTANCES);
  count = 0;
  /** Bytes of the input that it stands for. */
  from = 0;
  to = 0;

  constructor(
    private readonly input: Uint8Array,
    private readonly out: Bits,
  ) {}

  literal(byte: number): void {
    this.tokens[this.count++] = byte;
    this.literals[byte]!++;
    this.to++;
    if (this.count === TOKENS) this.write(false);
  }

  match(length: number, distance: number): void {
    this.tokens[this.count++] = (length << 16) | distance;
    this.literals[lengthSymbol(length - SHORTEST)]!++;
    this.distances[distanceSymbol(distance - 1)]!++;
    this.to += length;
    if (this.count === TOKENS) this.write(false);
  }

  /** Writes it in its own codes, in the fixed ones, or as it is, whichever is shortest, and begins the next. */
  write(last: boolean): void {
    const { literals, distances, out } = this;
    literals[END] = 1;
    const lengths = new Int32Array(288 + 32);
    const far = new Int32Array(32);
    // Two codes at least, as many programs expect; one of no use costs a bit or none.
    const asked = distances.slice();
    for (let i = 0; i < 2; i++) if (asked[i] === 0) asked[i] = 1;
    if (this.count === 0) literals[0] = 1;
    codeLengths(literals, LITERALS, LONGEST, lengths);
    codeLengths(asked, DISTANCES, LONGEST, far);
    let [near, wide] = [LITERALS, DISTANCES];
    while (lengths[near - 1] === 0) near--;
    while (far[wide - 1] === 0) wide--;
    const steps = stepsOf([...lengths.subarray(0, near), ...far.subarray(0, wide)]);
    const often = new Int32Array(19);
    for (const { symbol } of steps) often[symbol]!++;
    const ofLengths = new Int32Array(19);
    codeLengths(often, 19, LONGEST_OF_LENGTHS, ofLengths);
    let orders = 19;
    while (ofLengths[LENGTH_ORDER[orders - 1]!] === 0) orders--;

    if (this.count === 0) literals[0] = 0;
    let own = 17 + 3 * orders;
    for (const { symbol, bits } of steps) own += ofLengths[symbol]! + bits;
    let fixed = 3;
    for (let i = 0; i < LITERALS; i++) {
      own += literals[i]! * lengths[i]!;
      fixed += literals[i]! * fixedLength(i);
    }
    for (let i = 0; i < DISTANCES; i++) {
      own += distances[i]! * far[i]!;
      fixed += distances[i]! * 5;
    }
    const bytes = this.to - this.from;
    let extra = 0;
    for (let i = 0; i < this.count; i++) extra += extraBits(this.tokens[i]!);
    const stored = bytes * 8 + 40 * Math.max(1, Math.ceil(bytes / 65535)) + 2;

    if (stored < Math.min(own, fixed) + extra) this.store(last);
    else {
      if (fixed <= own) {
        out.put((last ? 1 : 0) | 2, 3);
        for (let i = 0; i < 288; i++) lengths[i] = fixedLength(i);
        far.fill(5);
      } else {
        out.put((last ? 1 : 0) | 4, 3);
        out.put(near - 257, 5);
        out.put(wide - 1, 5);
        out.put(orders - 4, 4);
        for (let i = 0; i < orders; i++) out.put(ofLengths[LENGTH_ORDER[i]!]!, 3);
        const codes = new Int32Array(19);
        codesFor(ofLengths, 19, codes);
        for (const { symbol, bits, value } of steps) {
          out.put(codes[symbol]!, ofLengths[symbol]!);
          out.put(value, bits);
        }
      }
      this.code(lengths, far);
    }
    this.count = 0;
    this.from = this.to;
    literals.fill(0);
    distances.fill(0);
  }

  private code(lengths: Int32Array, far: Int32Array): void {
    const { out } = this;
    const near = new Int32Array(288);
    const wide = new Int32Array(32);
    codesFor(lengths, 288, near);
    codesFor(far, 32, wide);
    for (let i = 0; i < this.count; i++) {
      const token = this.tokens[i]!;
      if (token < 1 << 16) {
        out.put(near[token]!, lengths[token]!);
        continue;
      }
      const l = (token >> 16) - SHORTEST;
      const d = (token & 65535) - 1;
      out.put(near[lengthSymbol(l)]!, lengths[lengthSymbol(l)]!);
      out.put(l & ((1 << lengthBits(l)) - 1), lengthBits(l));
      out.put(wide[distanceSymbol(d)]!, far[distanceSymbol(d)]!);
      out.put(d & ((1 << distanceBits(d)) - 1), distanceBits(d));
    }
    out.put(near[END]!, lengths[END]!);
  }

  private store(last: boolean): void {
    const { out, input } = this;
    for (let from = this.from; from < this.to || from === this.from; from += 65535) {
      const size = Math.min(65535, this.to - from);
      out.put(last && from + size === this.to ? 1 : 0, 3);
      out.toByte();
      for (const half of [size, size ^ 65535]) out.put(half, 16);
      for (let i = 0; i < size; i++) out.byte(input[from + i]!);
      if (size === 0) break;
    }
  }
}

const fixedLength = (symbol: number) => (symbol < 144 ? 8 : symbol < 256 ? 9 : symbol < 280 ? 7 : 8);

const extraBits = (token: number) =>
  token < 1 << 16 ? 0 : lengthBits((token >> 16) - SHORTEST) + distanceBits((token & 65535) - 1);

/** Code lengths as runs (RFC 1951, section 3.2.7): 16 repeats the last one, 17 and 18 are zeros. */
function stepsOf(lengths: readonly number[]): { symbol: number; bits: number; value: number }[] {
  const steps: { symbol: number; bits: number; value: number }[] = [];
  for (let i = 0; i < lengths.length; ) {
    const length = lengths[i]!;
    let run = 1;
    while (i + run < lengths.length && lengths[i + run] === length) run++;
    i += run;
    if (length !== 0) {
      steps.push({ symbol: length, bits: 0, value: 0 });
      run--;
    }
    while (run >= 3) {
      const most = length !== 0 ? 6 : run < 11 ? 10 : 138;
      const part = Math.min(run, most);
      if (length !== 0) steps.push({ symbol: 16, bits: 2, value: part - 3 });
      else if (part < 11) steps.push({ symbol: 17, bits: 3, value: part - 3 });
      else steps.push({ symbol: 18, bits: 7, value: part - 11 });
      run -= part;
    }
    for (; run > 0; run--) steps.push({ symbol: length, bits: 0, value: 0 });
  }
  return steps;
}

/** Where three bytes that begin at `at` are looked up. */
const place = (input: Uint8Array, at: number) =>
  Math.imul(input[at]! | (input[at + 1]! << 8) | (input[at + 2]! << 16), 0x9e3779b1) >>> 17;

/** Finds the matches among the bytes from `from` to `to` and writes them, and what is between them, as blocks. */
function pack(input: Uint8Array, from: number, to: number, block: Block): void {
  const head = new Int32Array(1 << 15).fill(-1);
  const before = new Int32Array(1 << 15);
  const enter = (at: number) => {
    const slot = place(input, at);
    const found = head[slot]!;
    before[at & FAR] = found;
    head[slot] = at;
    return found;
  };
  let held = SHORTEST - 1;
  let heldDistance = 0;
  let waits = false;
  for (let at = from; at < to; ) {
    let length = SHORTEST - 1;
    let distance = 0;
    if (to - at >= SHORTEST) {
      let found = enter(at);
      if (held < LAZY) {
        const most = Math.min(LONGEST_MATCH, to - at);
        let best = held;
        let tries = held >= GOOD ? TRIES >> 2 : TRIES;
        for (; found >= 0 && at - found <= FAR && tries > 0; tries--, found = before[found & FAR]!) {
          if (best < most && input[found + best] === input[at + best]) {
            let same = 0;
            while (same < most && input[found + same] === input[at + same]) same++;
            if (same > best) {
              best = same;
              distance = at - found;
              if (same >= NICE || same === most) break;
            }
          }
        }
        if (distance > 0 && !(best === SHORTEST && distance > FAR_FOR_THREE)) length = best;
      }
    }
    if (held >= SHORTEST && length <= held) {
      const end = at - 1 + held;
      block.match(held, heldDistance);
      for (let i = at + 1; i < end; i++) if (to - i >= SHORTEST) enter(i);
      at = end;
      held = SHORTEST - 1;
      waits = false;
    } else {
      if (waits) block.literal(input[at - 1]!);
      waits = true;
      held = length;
      heldDistance = distance;
      at++;
    }
  }
  if (waits) block.literal(input[to - 1]!);
}

/** The checksum of RFC 1950, section 8.2. */
function adler(input: Uint8Array): number {
  let a = 1;
  let b = 0;
  for (const byte of input) {
    a = (a + byte) % 65521;
    b = (b + a) % 65521;
  }
  return b * 65536 + a;
}

/** Bytes in the zlib format (RFC 1950) by deflate (RFC 1951): the definition and the fallback of `deflateFast`. */
export function deflatePlain(input: Uint8Array): Uint8Array {
  const out = new Bits();
  out.byte(0x78);
  out.byte(0x9c);
  for (let from = 0; from < input.length || from === 0; from += CHUNK) {
    const to = Math.min(input.length, from + CHUNK);
    const block = new Block(input, out);
    block.from = from;
    block.to = from;
    pack(input, from, to, block);
    block.write(to === input.length);
  }
  out.toByte();
  const sum = adler(input);
  for (const shift of [24, 16, 8, 0]) out.byte((sum / 2 ** shift) & 255);
  return out.bytes.slice(0, out.size);
}
