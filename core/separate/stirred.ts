import { type EdgeSolver, explainWithout } from './edge.ts';
import { LABEL } from './labels.ts';

/** Cores joined to fewer of their label than this, counted in points, may be what compression stirred up. */
const FEW = 32;
/** Encoded levels that the labels about must leave unexplained for so small a group to be drawn and not stirred up. */
const DRAWN = 30;

const NEW = 0;
const LARGE = 1;
const SMALL = 2;

/**
 * Clears small groups of cores (8-connected, one label) whose colours the labels about them nearly explain: ringing and blocks
 * of compressed art. Small groups that stand out stay: they are accents.
 */
export function withoutStirredCores(s: EdgeSolver): Uint8Array {
  const { width, height } = s.picture;
  const kept = s.cores.slice();
  const state = new Uint8Array(width * height);
  const group = new Int32Array(FEW);
  for (let i = 0; i < kept.length; i++) {
    if (s.cores[i] === 0 || state[i] !== NEW) continue;
    const n = growGroup(s.cores, state, group, i, width, height);
    if (n === 0) continue;
    let cost = 0;
    for (let k = 0; k < n; k++) {
      const at = group[k]!;
      cost += explainWithout(s, at % width, Math.floor(at / width), s.cores[i]! & LABEL);
    }
    if (cost / n < DRAWN) for (let k = 0; k < n; k++) kept[group[k]!] = 0;
  }
  return kept;
}

/** Collects the small group of point `from` and returns its size; 0 when the group is large. */
function growGroup(
  cores: Uint8Array,
  state: Uint8Array,
  group: Int32Array,
  from: number,
  width: number,
  height: number,
): number {
  const label = cores[from]! & LABEL;
  group[0] = from;
  let n = 1;
  let large = false;
  state[from] = SMALL;
  for (let k = 0; k < n && !large; k++) {
    const x = group[k]! % width;
    const y = (group[k]! - x) / width;
    for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1) && !large; v++)
      for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
        const j = v * width + u;
        const core = cores[j]!;
        if (core === 0 || (core & LABEL) !== label || state[j] === SMALL) continue;
        if (state[j] === LARGE || n === FEW) {
          large = true;
          break;
        }
        state[j] = SMALL;
        group[n++] = j;
      }
  }
  if (!large) return n;
  for (let k = 0; k < n; k++) state[group[k]!] = LARGE;
  return 0;
}
