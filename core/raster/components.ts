import type { Px } from '../units/index.ts';
import { copyMask, type Mask, setBit, signedWords } from './mask.ts';
import type { PxBox } from './measure.ts';
import { rowChanges } from './rowChanges.ts';

/** A connected piece: its points, the box around them, and its first point in reading order. */
export interface Component {
  /** Points. */
  readonly area: number;
  readonly box: PxBox;
  readonly x: Px;
  readonly y: Px;
}

/** Growing columns of whole numbers, one entry a label. */
class Labels {
  private size = 0;
  private room = 1024;
  parent = new Int32Array(this.room);
  area = new Float64Array(this.room);
  left = new Int32Array(this.room);
  right = new Int32Array(this.room);
  top = new Int32Array(this.room);
  bottom = new Int32Array(this.room);
  x = new Int32Array(this.room);

  get count(): number {
    return this.size;
  }

  add(x: number, y: number): number {
    if (this.size === this.room) this.enlarge();
    const label = this.size++;
    this.parent[label] = label;
    this.area[label] = 0;
    this.left[label] = x;
    this.right[label] = x;
    this.top[label] = y;
    this.bottom[label] = y;
    this.x[label] = x;
    return label;
  }

  find(label: number): number {
    const { parent } = this;
    let root = label;
    while (parent[root] !== root) root = parent[root]!;
    while (parent[label] !== root) {
      const next = parent[label]!;
      parent[label] = root;
      label = next;
    }
    return root;
  }

  /** Joins two pieces; the older label stays, which is the one that begins first in reading order. */
  join(a: number, b: number): number {
    const p = this.find(a);
    const q = this.find(b);
    if (p === q) return p;
    const keep = Math.min(p, q);
    const gone = Math.max(p, q);
    this.parent[gone] = keep;
    this.area[keep] = this.area[keep]! + this.area[gone]!;
    this.left[keep] = Math.min(this.left[keep]!, this.left[gone]!);
    this.right[keep] = Math.max(this.right[keep]!, this.right[gone]!);
    this.bottom[keep] = Math.max(this.bottom[keep]!, this.bottom[gone]!);
    return keep;
  }

  addRun(label: number, from: number, to: number, y: number): void {
    this.area[label] = this.area[label]! + (to - from);
    if (from < this.left[label]!) this.left[label] = from;
    if (to - 1 > this.right[label]!) this.right[label] = to - 1;
    this.bottom[label] = y;
  }

  private enlarge(): void {
    this.room *= 2;
    const wider = (old: Int32Array) => {
      const next = new Int32Array(this.room);
      next.set(old);
      return next;
    };
    const area = new Float64Array(this.room);
    area.set(this.area);
    this.area = area;
    this.parent = wider(this.parent);
    this.left = wider(this.left);
    this.right = wider(this.right);
    this.top = wider(this.top);
    this.bottom = wider(this.bottom);
    this.x = wider(this.x);
  }
}

/** Labels runs row by row with union-find. `diagonal` 1 joins diagonal neighbours (8-connected), 0 does not. */
function label(mask: Mask, flip: 0 | -1, diagonal: 0 | 1): Component[] {
  const { width, height, stride } = mask;
  const words = signedWords(mask);
  const labels = new Labels();
  let runs = new Int32Array(width + 2);
  let above = new Int32Array(width + 2);
  let runLabels = new Int32Array((width >>> 1) + 2);
  let aboveLabels = new Int32Array((width >>> 1) + 2);
  let aboveCount = 0;
  for (let y = 0; y < height; y++) {
    const count = rowChanges(words, y * stride, width, flip, runs);
    for (let i = 0, j = 0; i < count; i += 2) {
      const from = runs[i]!;
      const to = runs[i + 1]!;
      while (j < aboveCount && above[j + 1]! + diagonal <= from) j += 2;
      let mine = -1;
      for (let k = j; k < aboveCount && above[k]! < to + diagonal; k += 2) {
        const other = aboveLabels[k >>> 1]!;
        mine = mine < 0 ? labels.find(other) : labels.join(mine, other);
      }
      if (mine < 0) mine = labels.add(from, y);
      labels.addRun(mine, from, to, y);
      runLabels[i >>> 1] = mine;
    }
    [runs, above] = [above, runs];
    [runLabels, aboveLabels] = [aboveLabels, runLabels];
    aboveCount = count;
  }
  const found: Component[] = [];
  for (let i = 0; i < labels.count; i++) {
    if (labels.parent[i] !== i) continue;
    const [x, y] = [labels.left[i]!, labels.top[i]!];
    const box = { x, y, width: labels.right[i]! - x + 1, height: labels.bottom[i]! - y + 1 };
    found.push({ area: labels.area[i]!, box, x: labels.x[i]!, y });
  }
  return found;
}

/** The 8-connected pieces of ink, in reading order of their first points. Cost: words plus runs. */
export const components = (mask: Mask): Component[] => label(mask, 0, 1);

/**
 * The holes: 4-connected pieces of bare points that do not reach the mask's border, in reading order of their first
 * points.
 */
export function holes(mask: Mask): Component[] {
  return label(mask, -1, 0).filter(
    ({ box }) => box.x > 0 && box.y > 0 && box.x + box.width < mask.width && box.y + box.height < mask.height,
  );
}

/** Takes the 8-connected piece of ink that holds (x, y) from the mask itself. */
export function erasePiece(mask: Mask, x: number, y: number): void {
  const { width, height, stride, data } = mask;
  const inked = (px: number, py: number) => ((data[py * stride + (px >>> 5)]! >>> (px & 31)) & 1) === 1;
  const stack = [x, y];
  while (stack.length > 0) {
    const cy = stack.pop()!;
    const cx = stack.pop()!;
    if (!inked(cx, cy)) continue;
    let left = cx;
    let right = cx;
    while (left > 0 && inked(left - 1, cy)) left--;
    while (right + 1 < width && inked(right + 1, cy)) right++;
    for (let px = left; px <= right; px++) setBit(mask, px, cy, false);
    const from = Math.max(0, left - 1);
    const to = Math.min(width - 1, right + 1);
    for (const ny of [cy - 1, cy + 1]) {
      if (ny < 0 || ny >= height) continue;
      let inside = false;
      for (let px = from; px <= to; px++) {
        const open = inked(px, ny);
        if (open && !inside) stack.push(px, ny);
        inside = open;
      }
    }
  }
}

/** The mask without its pieces of fewer than `minAreaPx` points, and those pieces. The given mask stays as it is. */
export function dropSpecks(mask: Mask, minAreaPx: number): { mask: Mask; dropped: Component[] } {
  const dropped = components(mask).filter(({ area }) => area < minAreaPx);
  const out = copyMask(mask);
  for (const { x, y } of dropped) erasePiece(out, x, y);
  return { mask: out, dropped };
}
