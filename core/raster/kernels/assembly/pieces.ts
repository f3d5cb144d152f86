// Small connected pieces of ink: union-find over runs, row by row, as `label` of ../../components.ts does it, but with labels of
// which only those that runs of the last row belong to are kept.

import { changesOf } from './changes';
import { at, put } from './lists';

/** Bytes of a label: parent, area, left, right, top, bottom, first point's x, and 1 + its place to be while labels are moved. */
const LABEL: usize = 32;
/** Bytes of a piece: area, left, right, top, bottom, first point's x. */
const PIECE: usize = 24;

// @ts-ignore: decorator
@inline
function find(labels: usize, label: i32): i32 {
  let root = label;
  let parent = load<i32>(labels + <usize>root * LABEL);
  while (parent != root) {
    root = parent;
    parent = load<i32>(labels + <usize>root * LABEL);
  }
  while (label != root) {
    const entry = labels + <usize>label * LABEL;
    label = load<i32>(entry);
    store<i32>(entry, root);
  }
  return root;
}

function join(labels: usize, p: i32, label: i32): i32 {
  const q = find(labels, label);
  if (p == q) return p;
  const keep = labels + <usize>min(p, q) * LABEL;
  const gone = labels + <usize>max(p, q) * LABEL;
  store<i32>(gone, min(p, q));
  store<i32>(keep, load<i32>(keep, 4) + load<i32>(gone, 4), 4);
  store<i32>(keep, min(load<i32>(keep, 8), load<i32>(gone, 8)), 8);
  store<i32>(keep, max(load<i32>(keep, 12), load<i32>(gone, 12)), 12);
  store<i32>(keep, max(load<i32>(keep, 20), load<i32>(gone, 20)), 20);
  return min(p, q);
}

/** Writes the finished pieces of fewer than `below` points, from place `made` of `out`; the other labels move together. */
function settle(labels: usize, count: i32, mine: usize, runs: i32, below: i32, out: usize, made: i32, state: usize): void {
  for (let i = 0; i < runs; i++) {
    const root = find(labels, at(mine, i));
    put(mine, i, root);
    store<i32>(labels + <usize>root * LABEL, 1, 28);
  }
  let kept = 0;
  for (let i = 0; i < count; i++) {
    const entry = labels + <usize>i * LABEL;
    if (load<i32>(entry, 28) != 0) store<i32>(entry, ++kept, 28);
  }
  for (let i = 0; i < runs; i++) put(mine, i, load<i32>(labels + <usize>at(mine, i) * LABEL, 28) - 1);
  for (let i = 0; i < count; i++) {
    const entry = labels + <usize>i * LABEL;
    const to = load<i32>(entry, 28);
    if (to != 0) {
      const moved = labels + <usize>(to - 1) * LABEL;
      if (moved != entry) memory.copy(moved, entry, LABEL);
      store<i32>(moved, to - 1);
      store<i32>(moved, 0, 28);
    } else if (load<i32>(entry) == i && load<i32>(entry, 4) < below) {
      memory.copy(out + <usize>made * PIECE, entry + 4, PIECE);
      made++;
    }
  }
  put(state, 1, kept);
  put(state, 2, made);
}

/**
 * Goes on with `rows` rows of `pitch` bytes (a multiple of 16, zeros beyond `width`), of which the first is row `y` of the mask.
 * `runs` and `above` have room for width + 2 numbers, `mine` and `over` for half as many; `above` and `over` hold the row
 * before's. `state`: how many numbers `above` holds, how many labels there are, how many pieces of fewer than `below`
 * points stand in `out`; `room` labels and as many pieces have room. Returns how many rows were done: fewer than asked where
 * `out` is to be emptied first.
 */
export function pieceRows(
  input: usize,
  pitch: usize,
  width: i32,
  rows: i32,
  y: i32,
  runs: usize,
  above: usize,
  mine: usize,
  over: usize,
  labels: usize,
  room: i32,
  below: i32,
  out: usize,
  state: usize,
): i32 {
  const keptRuns = above;
  const keptLabels = over;
  let aboveCount = at(state, 0);
  let row = 0;
  for (; row < rows; row++) {
    if (at(state, 1) + (width >> 1) + 1 > room) {
      if (at(state, 2) + at(state, 1) > room) break;
      settle(labels, at(state, 1), over, aboveCount >> 1, below, out, at(state, 2), state);
    }
    let labelCount = at(state, 1);
    const count = changesOf(input + <usize>row * pitch, width, runs);
    let j = 0;
    for (let i = 0; i < count; i += 2) {
      const from = at(runs, i);
      const to = at(runs, i + 1);
      while (j < aboveCount && at(above, j + 1) + 1 <= from) j += 2;
      let label = -1;
      for (let k = j; k < aboveCount && at(above, k) < to + 1; k += 2) {
        const other = at(over, k >> 1);
        label = label < 0 ? find(labels, other) : join(labels, label, other);
      }
      if (label < 0) {
        label = labelCount++;
        const entry = labels + <usize>label * LABEL;
        store<i32>(entry, label);
        store<i32>(entry, 0, 4);
        store<i32>(entry, from, 8);
        store<i32>(entry, from, 12);
        store<i32>(entry, y + row, 16);
        store<i32>(entry, y + row, 20);
        store<i32>(entry, from, 24);
        store<i32>(entry, 0, 28);
      }
      const entry = labels + <usize>label * LABEL;
      store<i32>(entry, load<i32>(entry, 4) + to - from, 4);
      if (from < load<i32>(entry, 8)) store<i32>(entry, from, 8);
      if (to - 1 > load<i32>(entry, 12)) store<i32>(entry, to - 1, 12);
      store<i32>(entry, y + row, 20);
      put(mine, i >> 1, label);
    }
    put(state, 1, labelCount);
    aboveCount = count;
    let swap = runs;
    runs = above;
    above = swap;
    swap = mine;
    mine = over;
    over = swap;
  }
  put(state, 0, aboveCount);
  if (above != keptRuns) {
    memory.copy(keptRuns, above, <usize>aboveCount << 2);
    memory.copy(keptLabels, over, <usize>aboveCount << 1);
  }
  return row;
}

/** After the last row: writes what is left. `out` has room for as many pieces as there are labels. */
export function lastPieces(labels: usize, below: i32, out: usize, state: usize): void {
  settle(labels, at(state, 1), 0, 0, below, out, 0, state);
}

/** Clears of `from` what `within` has not. Returns 1 where that changed something. */
export function clipRows(from: usize, within: usize, bytes: usize): i32 {
  let lost = i32x4.splat(0);
  for (let i: usize = 0; i < bytes; i += 16) {
    const word = v128.load(from + i);
    const may = v128.load(within + i);
    lost = v128.or(lost, v128.andnot(word, may));
    v128.store(from + i, v128.and(word, may));
  }
  return v128.any_true(lost) ? 1 : 0;
}
