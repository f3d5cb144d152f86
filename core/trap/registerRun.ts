import { blankMask, type Mask, subtract } from '../raster/index.ts';
import { type Mm, pxPerMm } from '../units/index.ts';
import { MovedMask } from './movedMask.ts';
import type { PullError } from './pullError.ts';
import { type Watched, watch } from './watchedWords.ts';
import { WidestDisc } from './widestDisc.ts';

/** What is being tried. */
export interface RegisterSetting {
  /** mm: both ends of each pull stay within this of their places. */
  readonly toleranceMm: Mm;
  readonly dpi: number;
  /** The base's place in the pull order and where the art shows the base itself; null: every print is a colour. */
  readonly base?: { readonly place: number; readonly own: Mask } | null | undefined;
}

/** What one trial shows where the art does not. */
export interface TrialShown {
  readonly woodMm2: number;
  readonly baseMm2: number;
  /** mm across the widest gap, to a point of the raster; 0 without one. */
  readonly widestMm: Mm;
}

/** Gaps are no wider than two pulls can part; a little more for rounding. */
const GAP_SLACK_PX = 3;

/** Prints made ready for many errors; nothing is allocated within a trial. */
export class RegisterRun {
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
    private readonly options: RegisterSetting,
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

  /** The pulls laid off by `errors`, by place in the pull order; `gaps` holds where something shows until the next. */
  trial(errors: readonly PullError[]): TrialShown {
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
