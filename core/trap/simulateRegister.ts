import { blankMask, type Mask, subtract } from '../raster/index.ts';
import { type Abort, type Mm, type Progress, pxPerMm } from '../units/index.ts';
import { MovedMask } from './movedMask.ts';
import { type Spread, spreadOf } from './percentile.ts';
import { drawPullError, type PullError } from './pullError.ts';
import { randomStream } from './randomStream.ts';
import { type Watched, watch } from './watchedWords.ts';
import { WidestDisc } from './widestDisc.ts';

export interface RegisterOptions {
  /** mm: both ends of each pull stay within this of their places. */
  readonly toleranceMm: Mm;
  readonly trials: number;
  readonly seed: number;
  readonly dpi: number;
  /** The base's place in the pull order and where the art shows the base itself; null: every print is a colour. */
  readonly base?: { readonly place: number; readonly own: Mask } | null | undefined;
  readonly progress?: Progress | undefined;
  readonly abort?: Abort | undefined;
}

export interface RegisterResult {
  /** mm² of wood or base showing where the art shows neither. */
  readonly areaMm2: Spread;
  /** mm across the widest such gap, to a point of the raster. */
  readonly widestMm: Spread;
  /** The two apart. */
  readonly woodMm2: Spread;
  readonly baseMm2: Spread;
  /** Area of each trial in the order they ran, mm². */
  readonly trialsMm2: readonly number[];
  /** Fewer than asked for when it was stopped. */
  readonly trials: number;
}

/** Gaps are no wider than two pulls can part; a little more for rounding. */
const GAP_SLACK_PX = 3;

/**
 * What register error does to these prints: in each trial every pull is shifted and turned at random within the tolerance
 * (`drawPullError`), the pulls are laid over each other, and the deck is searched for wood, or base, where the art has
 * neither. `wanted` is where the art has any ink; all masks share one size, at `dpi`. The turn is about the raster's
 * middle; a raster is taken to be as long as its art.
 *
 * Beside bare wood a strip as wide as the tolerance is left out: there the shift of a whole shape bares wood whatever
 * the traps, and shows no gap. Base counts wherever the art does not show it, beyond the art's outer edges too, but for as
 * wide a strip beside its own white, where an edge of the art moves and nothing is uncovered that was hidden.
 *
 * The same input and seed give the same result. Seeds are of 32 bits. Nothing is allocated within a trial.
 */
export function simulateRegister(
  prints: readonly Mask[],
  wanted: Mask,
  options: RegisterOptions,
): RegisterResult {
  const run = new RegisterRun(prints, wanted, options);
  const next = randomStream(options.seed);
  const length = wanted.width / pxPerMm(options.dpi);
  const areas: number[] = [];
  const woods: number[] = [];
  const bases: number[] = [];
  const widths: number[] = [];
  for (let trial = 0; trial < options.trials && !options.abort?.aborted; trial++) {
    const shown = run.trial(prints.map(() => drawPullError(next, options.toleranceMm, length)));
    areas.push(shown.woodMm2 + shown.baseMm2);
    woods.push(shown.woodMm2);
    bases.push(shown.baseMm2);
    widths.push(shown.widestMm);
    options.progress?.((trial + 1) / options.trials, `trial ${trial + 1} of ${options.trials}`);
  }
  return {
    areaMm2: spreadOf(areas),
    widestMm: spreadOf(widths),
    woodMm2: spreadOf(woods),
    baseMm2: spreadOf(bases),
    trialsMm2: areas,
    trials: areas.length,
  };
}

/** What shows with every pull off by `errors` (by place in the pull order), measured as `simulateRegister` does. */
export function showRegister(
  prints: readonly Mask[],
  wanted: Mask,
  errors: readonly PullError[],
  options: Pick<RegisterOptions, 'toleranceMm' | 'dpi' | 'base'>,
): { readonly woodMm2: number; readonly baseMm2: number; readonly widestMm: number; readonly gaps: Mask } {
  const run = new RegisterRun(prints, wanted, options);
  return { ...run.trial(errors), gaps: run.gaps };
}

class RegisterRun {
  readonly gaps: Mask;
  private readonly words: Int32Array;
  private readonly moved: MovedMask[];
  private readonly hidden: MovedMask | null;
  private readonly watched: Watched;
  private readonly widest: WidestDisc;
  /** Places of words with a gap in the trial under way. */
  private readonly found: Int32Array;
  private count = 0;

  constructor(
    prints: readonly Mask[],
    wanted: Mask,
    private readonly options: Pick<RegisterOptions, 'toleranceMm' | 'dpi' | 'base'>,
  ) {
    const reach = options.toleranceMm * pxPerMm(options.dpi);
    const base = options.base ?? null;
    const hidden = base ? subtract(prints[base.place]!, base.own) : null;
    // Offsets are rounded along x and along y, each by up to half a point.
    this.watched = watch(prints, wanted, base?.place ?? -1, hidden, base?.own ?? null, reach + Math.SQRT1_2);
    this.moved = prints.map((print) => new MovedMask(print));
    this.hidden = hidden ? new MovedMask(hidden) : null;
    this.gaps = blankMask(wanted.width, wanted.height);
    this.words = new Int32Array(this.gaps.data.buffer);
    this.found = new Int32Array(this.watched.places.length);
    this.widest = new WidestDisc(wanted.width, wanted.height, wanted.stride, 2 * reach + GAP_SLACK_PX);
  }

  trial(errors: readonly PullError[]): { woodMm2: number; baseMm2: number; widestMm: number } {
    const { moved, hidden, watched, words, found, gaps, options } = this;
    const { places } = watched;
    const used = (gaps.width + 31) >>> 5;
    const basePlace = options.base?.place ?? -1;
    for (let i = 0; i < this.count; i++) words[this.wordAt(found[i]!, used)] = 0;
    for (let p = 0; p < moved.length; p++) moved[p]!.place(errors[p]!, options.dpi);
    if (hidden) hidden.place(errors[basePlace]!, options.dpi);
    let wood = 0;
    let base = 0;
    let count = 0;
    for (let i = 0; i < places.length; i++) {
      const place = places[i]!;
      const y = (place / used) | 0;
      const w = place - y * used;
      const at = y * gaps.stride + w;
      const woodRoom = watched.wood.data[at]! | 0;
      let open = woodRoom | (hidden ? watched.base.data[at]! : 0);
      for (let p = 0; p < moved.length && open !== 0; p++) if (p !== basePlace) open &= ~moved[p]!.word(y, w);
      if (open === 0) continue;
      let woodShown = open & woodRoom;
      let baseShown = 0;
      if (hidden) {
        if (woodShown !== 0) woodShown &= ~moved[basePlace]!.word(y, w);
        baseShown = open & watched.base.data[at]! & hidden.word(y, w);
      }
      const gap = woodShown | baseShown;
      if (gap === 0) continue;
      words[at] = gap;
      found[count++] = place;
      wood += bits(woodShown);
      base += bits(baseShown);
    }
    this.count = count;
    const scale = pxPerMm(options.dpi);
    return {
      woodMm2: wood / scale / scale,
      baseMm2: base / scale / scale,
      widestMm: this.widest.find(words, found, count) / scale,
    };
  }

  private wordAt(place: number, used: number): number {
    const y = (place / used) | 0;
    return y * this.gaps.stride + (place - y * used);
  }
}

/** Bits set in a word. (Parallel count: H. S. Warren, Hacker's Delight, section 5-1.) */
function bits(word: number): number {
  let v = word - ((word >>> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
  return Math.imul((v + (v >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
