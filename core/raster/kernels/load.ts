import { KERNELS } from './kernels.generated.ts';

/** What the compiled kernels offer; numbers are byte addresses in `memory` unless their names say otherwise. */
export interface Kernels {
  readonly memory: {
    readonly buffer: ArrayBuffer;
    grow(pages: number): number;
  };
  growRows(
    input: number,
    output: number,
    bytes: number,
    words: number,
    tail: number,
    first: number,
    rows: number,
    inRows: number,
    passes: number,
    count: number,
    reach: number,
    block: number,
    halo: number,
    a: number,
    b: number,
    zero: number,
    kinds: number,
    counts: number,
    shrinking: number,
  ): void;
  beginArt(table: number, rest: number): void;
  artRoom(): number;
  artRows(fresh: number, winners: number, shared: number, shares: number, told: number): void;
  bendShares(shares: number, count: number, planes: number, table: number): void;
  nodesWithin(nodes: number, count: number, farthest: number): number;
  nodesBox(
    nodes: number,
    cols: number,
    left: number,
    right: number,
    top: number,
    bottom: number,
    out: number,
  ): void;
  lookUpWords(input: number, from: number, count: number, keys: number, held: number, output: number): number;
  pureCores(
    words: number,
    codes: number,
    width: number,
    rows: number,
    first: number,
    count: number,
    base: number,
    right: number,
    below: number,
    pitch: number,
    cores: number,
    soft: number,
  ): number;
  withoutRows(from: number, what: number, bytes: number): void;
  prepareSource(
    planar: number,
    planes: number,
    pitch: number,
    rows: number,
    texels: number,
    winners: number,
    alike: number,
    fours: number,
  ): void;
  spreadShares(
    winners: number,
    planes: number,
    pitch: number,
    rows: number,
    alike: number,
    places: number,
    shares: number,
    count: number,
    srcWidth: number,
    regionX: number,
    regionY: number,
    regionWidth: number,
    texels: number,
    ones: number,
  ): void;
  warpTile(
    nodes: number,
    cols: number,
    step: number,
    tileX: number,
    tileY: number,
    width: number,
    height: number,
    planes: number,
    srcWidth: number,
    srcHeight: number,
    regionX: number,
    regionY: number,
    pitch: number,
    texels: number,
    winners: number,
    alike: number,
    ones: number,
    out: number,
    outSize: number,
    outPitch: number,
    weights: number,
  ): void;
  inkedSpans(from: number, pitch: number, rows: number, spans: number): void;
  distanceRows(
    bits: number,
    bitPitch: number,
    inRows: number,
    first: number,
    rows: number,
    width: number,
    reach: number,
    far: number,
    walk: number,
    columns: number,
    line: number,
    out: number,
  ): void;
  thresholdRows(
    plane: number,
    planePitch: number,
    width: number,
    firstRow: number,
    rows: number,
    tile: number,
    tilePitch: number,
    period: number,
    depth: number,
    shift: number,
    out: number,
    outPitch: number,
  ): void;
  screenRows(
    plane: number,
    planeTop: number,
    across: number,
    down: number,
    factor: number,
    firstRow: number,
    rows: number,
    width: number,
    line: number,
    row: number,
    tile: number,
    tilePitch: number,
    period: number,
    depth: number,
    shift: number,
    out: number,
    outPitch: number,
  ): void;
  downsampleRows(
    input: number,
    bytes: number,
    factor: number,
    level: number,
    digits: number,
    out: number,
    outWidth: number,
    outPitch: number,
    outRows: number,
  ): void;
  deflateChunk(
    input: number,
    size: number,
    out: number,
    space: number,
    lengthOrder: number,
    state: number,
    last: number,
  ): number;
  diffuseRow(
    values: number,
    width: number,
    errors: number,
    next: number,
    out: number,
    outPitch: number,
    backwards: number,
  ): void;
  tableShares(
    points: number,
    count: number,
    axes: number,
    stepR: number,
    stepG: number,
    stepB: number,
    shares: number,
    planes: number,
    groups: number,
    ends: number,
    out: number,
    outPitch: number,
  ): void;
  encodeG4Rows(
    input: number,
    pitch: number,
    width: number,
    rows: number,
    row: number,
    above: number,
    codes: number,
    vertical: number,
    out: number,
    state: number,
  ): number;
  gatherRows(
    input: number,
    pitch: number,
    rows: number,
    bytes: number,
    output: number,
    outPitch: number,
  ): void;
  cropRows(
    input: number,
    pitch: number,
    rows: number,
    shift: number,
    words: number,
    tail: number,
    output: number,
    outPitch: number,
  ): void;
  msbRows(input: number, pitch: number, rows: number, bytes: number, flip: number, out: number): void;
  inkedSquares(
    input: number,
    bytes: number,
    factor: number,
    line: number,
    begin: number,
    first: number,
    last: number,
    end: number,
    out: number,
    outPitch: number,
    outRows: number,
  ): void;
  blankWay(codes: number, columns: number, rows: number, inked: number, come: number, next: number): number;
  inkAlong(
    at: number,
    bytes: number,
    wide: number,
    high: number,
    x: number,
    y: number,
    leftOf: number,
    topOf: number,
    pixels: number,
    path: number,
    looks: number,
    count: number,
    feel: number,
    reach: number,
    out: number,
  ): number;
  cellColumns(
    begin: number,
    count: number,
    left: number,
    per: number,
    noise: number,
    firsts: number,
    ends: number,
    lasts: number,
  ): void;
  inkCells(
    words: number,
    pitch: number,
    from: number,
    to: number,
    above: number,
    per: number,
    noise: number,
    high: number,
    wide: number,
    begin: number,
    count: number,
    firsts: number,
    ends: number,
    lasts: number,
    joined: number,
    stepI: number,
    stepJ: number,
    out: number,
  ): void;
  flatRows(codes: number, columns: number, rows: number, flat: number): void;
  laneEdges(
    codes: number,
    flat: number,
    columns: number,
    lanes: number,
    laneCells: number,
    firstCell: number,
    places: number,
    offsets: number,
    samples: number,
    steepest: number,
    prices: number,
    kinds: number,
    edge: number,
  ): void;
  laneStep(
    lanes: number,
    steepest: number,
    sharpest: number,
    turn: number,
    edge: number,
    best: number,
    next: number,
    came: number,
  ): void;
  edgeCells(ink: number, rows: number, columns: number, reach: number, mixed: number): void;
  edgeSums(
    ink: number,
    mixed: number,
    rows: number,
    columns: number,
    reach: number,
    counts: number,
    line: number,
    some: number,
    sums: number,
  ): void;
  edgeCodes(
    sums: number,
    ink: number,
    mixed: number,
    from: number,
    count: number,
    most: number,
    clear: number,
    facings: number,
    out: number,
  ): number;
  thinCores(table: number, soft: number, count: number, places: number, found: number): number;
  explainedCores(table: number, soft: number, count: number, places: number): number;
  addRows(into: number, what: number, bytes: number): void;
  lessRows(from: number, what: number, bytes: number): void;
  stayRows(
    input: number,
    pitch: number,
    inRows: number,
    first: number,
    rows: number,
    asked: number,
    kept: number,
    tall: number,
    reach: number,
    most: number,
    least: number,
    discs: number,
    across: number,
    walk: number,
    steps: number,
    line: number,
    map: number,
  ): void;
  inked(at: number, bytes: number): number;
  inkedRuns(at: number, bytes: number, stretch: number, runs: number): number;
  pieceRows(
    input: number,
    pitch: number,
    width: number,
    rows: number,
    y: number,
    runs: number,
    above: number,
    mine: number,
    over: number,
    labels: number,
    room: number,
    below: number,
    out: number,
    state: number,
  ): number;
  lastPieces(labels: number, below: number, out: number, state: number): void;
  clipRows(from: number, within: number, bytes: number): number;
  beginSpread(
    seed: number,
    grown: number,
    keepOut: number,
    room: number,
    reached: number,
    places: number,
    pitch: number,
    words: number,
    rows: number,
    step: number,
  ): number;
  spreadSteps(
    room: number,
    reached: number,
    places: number,
    n: number,
    fresh: number,
    pitch: number,
    words: number,
    rows: number,
    steps: number,
  ): void;
  surveyRows(
    input: number,
    pitch: number,
    y0: number,
    rows: number,
    counts: number,
    left: number,
    right: number,
    top: number,
    seen: number,
    step: number,
    digits: number,
  ): void;
  surveyUp(
    input: number,
    pitch: number,
    y0: number,
    rows: number,
    bottom: number,
    seen: number,
    all: number,
  ): number;
  columnCounts(digits: number, pitch: number, levels: number, step: number, columns: number): void;
  softShares(
    table: number,
    soft: number,
    count: number,
    planeCount: number,
    first: number,
    wanted: number,
    winners: number,
    shared: number,
    shares: number,
  ): number;
}

/** The members of the WebAssembly interface that are used here; the language's own library does not declare them. */
interface WasmApi {
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: object) => { readonly exports: unknown };
  validate(bytes: Uint8Array): boolean;
}

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Base64 (RFC 4648, section 4) to bytes. */
export function fromBase64(text: string): Uint8Array {
  const value = new Uint8Array(128);
  for (let i = 0; i < 64; i++) value[DIGITS.charCodeAt(i)] = i;
  const length = text.indexOf('=') < 0 ? text.length : text.indexOf('=');
  const bytes = new Uint8Array((length * 3) >> 2);
  for (let i = 0, at = 0, pending = 0; i < length; i++) {
    pending = (pending << 6) | value[text.charCodeAt(i)]!;
    if ((i & 3) !== 0) bytes[at++] = pending >>> (6 - 2 * (i & 3));
  }
  return bytes;
}

// One instance a thread, made when first needed. It holds no state between calls: its memory is scratch.
let instance: Kernels | null | undefined;

/**
 * The compiled kernels, or null where WebAssembly or its 128-bit instructions are missing or forbidden (a page's security
 * policy must allow `wasm-unsafe-eval`). The plain twins then give the same bits, slower.
 */
export function kernels(): Kernels | null {
  if (instance === undefined) {
    instance = null;
    const api = (globalThis as { readonly WebAssembly?: WasmApi }).WebAssembly;
    const bytes = fromBase64(KERNELS);
    try {
      if (api?.validate(bytes)) instance = new api.Instance(new api.Module(bytes), {}).exports as Kernels;
    } catch {
      // A security policy forbids it: not a failure, the plain twins do the work.
    }
  }
  return instance;
}

/** Makes the kernels ready, for who has time now and none later. */
export const wakeKernels = (): void => {
  kernels();
};

/** First byte of the kernels' memory that is free for scratch. */
const BASE = 4096;
const PAGE = 65536;

/** Bytes of scratch that a call took at most, since whoever measures set it to 0. */
export const scratchUse = { most: 0 };

/** Hands out addresses in the kernels' memory, each on 16 bytes, then makes sure that they exist. */
export class Scratch {
  constructor(private end = BASE) {}

  /** One that begins where this one ends, whose addresses may be given out anew. */
  fork(): Scratch {
    return new Scratch(this.end);
  }

  take(bytes: number): number {
    const at = this.end;
    this.end = (at + bytes + 15) & ~15;
    return at;
  }

  /** Grows the memory to hold all that was taken; views made before are void. */
  reserve(to: Kernels): void {
    if (this.end - BASE > scratchUse.most) scratchUse.most = this.end - BASE;
    const missing = this.end + 64 - to.memory.buffer.byteLength;
    if (missing > 0) to.memory.grow(Math.ceil(missing / PAGE));
  }
}
