/** A rectangle to be put on a sheet. Any one unit. */
export interface Item {
  readonly width: number;
  readonly height: number;
}

/** A straight cut on a page, from end to end of the piece it parts. */
export interface PageCut {
  readonly page: number;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

export interface Packing {
  readonly pages: number;
  /** For each item: its page from 0 and its lower left corner. */
  readonly places: readonly { readonly page: number; readonly x: number; readonly y: number }[];
  /** Cuts that part the items, in the order they are to be made. Each runs in the middle of a gap. */
  readonly cuts: readonly PageCut[];
}

interface Free {
  readonly page: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** The cut that frees it; drawn when something is put there. */
  readonly cut: PageCut | null;
}

type Split = 'across' | 'up' | 'shorter';
const SPLITS: readonly Split[] = ['across', 'up', 'shorter'];
/** Up to this many items every order is tried: 720 of them. */
const EVERY_ORDER = 6;

/** One guillotine packing in the given order: each item in the free piece it fills best, which is then cut in two. */
function packInOrder(
  items: readonly Item[],
  order: readonly number[],
  bin: Item,
  gap: number,
  split: Split,
): Packing {
  const places: { page: number; x: number; y: number }[] = new Array(items.length);
  const cuts: PageCut[] = [];
  let free: Free[] = [];
  let pages = 0;
  for (const index of order) {
    const { width, height } = items[index]!;
    let best: Free | null = null;
    let tightest = Infinity;
    for (const piece of free) {
      const spare = Math.min(piece.width - width, piece.height - height);
      if (spare >= -1e-9 && spare < tightest) [best, tightest] = [piece, spare];
    }
    if (!best) {
      best = { page: pages, x: 0, y: 0, width: bin.width, height: bin.height, cut: null };
      pages++;
    } else free = free.filter((piece) => piece !== best);
    const { page, x, y } = best;
    if (best.cut) cuts.push(best.cut);
    places[index] = { page, x, y };
    const [right, over] = [best.width - width - gap, best.height - height - gap];
    // `across`: the first cut runs the whole width of the piece, above the item.
    const across = split === 'across' || (split === 'shorter' && right < over);
    const upright = x + width + gap / 2;
    const level = y + height + gap / 2;
    const [farX, farY] = [x + best.width, y + best.height];
    const high = across ? height : best.height;
    const wide = across ? best.width : width;
    if (right > 0) {
      const cut = { page, from: [upright, y], to: [upright, across ? Math.min(level, farY) : farY] } as const;
      free.push({ page, x: x + width + gap, y, width: right, height: high, cut });
    }
    if (over > 0) {
      const cut = { page, from: [x, level], to: [across ? farX : Math.min(upright, farX), level] } as const;
      free.push({ page, x, y: y + height + gap, width: wide, height: over, cut });
    }
  }
  return { pages, places, cuts };
}

function* orders(n: number): Generator<readonly number[]> {
  const order = Array.from({ length: n }, (_, i) => i);
  const counts = new Array<number>(n).fill(0);
  yield order;
  // Heap's algorithm (B. R. Heap, 1963).
  for (let i = 1; i < n; ) {
    if (counts[i]! < i) {
      const j = i % 2 === 0 ? 0 : counts[i]!;
      [order[i], order[j]] = [order[j]!, order[i]!];
      yield order;
      counts[i]!++;
      i = 1;
    } else counts[i++] = 0;
  }
}

/** Largest first, by each measure of size. */
function sorted(items: readonly Item[]): number[][] {
  const by = (size: (item: Item) => number) =>
    items.map((_, i) => i).sort((a, b) => size(items[b]!) - size(items[a]!) || a - b);
  return [
    by((i) => i.height),
    by((i) => i.width),
    by((i) => i.width * i.height),
    by((i) => Math.max(i.width, i.height)),
  ];
}

/**
 * Puts rectangles on as few pages of size `bin` as it finds, unturned, `gap` apart, so that straight cuts right through
 * part them (a guillotine packing). Null when an item is larger than the page. Up to six items every order is tried.
 * Among equal packings the one with fewest cuts, then the first found: the same items give the same packing.
 */
export function packSheets(items: readonly Item[], bin: Item, gap: number): Packing | null {
  if (items.some(({ width, height }) => width > bin.width + 1e-9 || height > bin.height + 1e-9)) return null;
  const tries = items.length <= EVERY_ORDER ? orders(items.length) : sorted(items);
  let best: Packing | null = null;
  for (const order of tries) {
    for (const split of SPLITS) {
      const packing = packInOrder(items, order, bin, gap, split);
      const better =
        !best ||
        packing.pages < best.pages ||
        (packing.pages === best.pages && packing.cuts.length < best.cuts.length);
      if (better) best = packing;
    }
  }
  return best;
}
