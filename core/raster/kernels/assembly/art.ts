// A whole window of drawn art, from words to shares, in one pass of bands: codes, pure points, thin lines and soft points each follow the
// one before as many rows behind as they look about them. See core/separate/separateWindow.ts, the readable definition.

import { beginCodes, codesTo } from './codeOf';
import { SURE } from './codes';
import { pureCores } from './cores';
import { at as i32At, put } from './lists';
import { bandAt, begin, isExplained, solveRows, thinCore } from './softPoints';

let width: i32 = 0;
let height: i32 = 0;
/** Rows that a soft point looks up and down. */
let reach: i32 = 0;
let planeCount: i32 = 0;
let words: usize = 0;
let codes: usize = 0;
let cores: usize = 0;
let right: usize = 0;
let below: usize = 0;
let tally: usize = 0;

// Rows of the window: the first that is held, and those before which all is done.
let top: i32 = 0;
let loaded: i32 = 0;
let cored: i32 = 0;
let thinned: i32 = 0;
let applied: i32 = 0;
let explained: i32 = 0;
let removed: i32 = 0;
let solved: i32 = 0;

// Places without a sure core, from the first that is not solved yet; cores found for thin lines and not entered yet; likely ones of these,
// not judged yet; and those that go again.
let soft: usize = 0;
let softThin: i32 = 0;
let softSolved: i32 = 0;
let softEnd: i32 = 0;
let thin: usize = 0;
let thinByte: usize = 0;
let thinNext: i32 = 0;
let thinEnd: i32 = 0;
let likely: usize = 0;
let likelyNext: i32 = 0;
let likelyEnd: i32 = 0;
let gone: usize = 0;
let goneNext: i32 = 0;
let goneEnd: i32 = 0;

/** Begins a window. `table` is that of soft points, `rest` what else is needed: see ../artFast.ts, which writes both. */
export function beginArt(table: usize, rest: usize): void {
  begin(table);
  words = <usize>i32At(table, 0);
  codes = <usize>i32At(table, 1);
  cores = <usize>i32At(table, 2);
  width = i32At(table, 3);
  height = i32At(rest, 0);
  planeCount = i32At(rest, 1);
  reach = max(i32At(table, 12), i32At(table, 15));
  right = <usize>i32At(rest, 2);
  below = <usize>i32At(rest, 3);
  tally = <usize>i32At(rest, 4);
  soft = <usize>i32At(rest, 5);
  thin = <usize>i32At(rest, 6);
  thinByte = <usize>i32At(rest, 7);
  likely = <usize>i32At(rest, 8);
  gone = <usize>i32At(rest, 9);
  beginCodes(
    i32At(table, 7),
    <usize>i32At(rest, 10),
    <usize>i32At(table, 6),
    <usize>i32At(rest, 11),
    <usize>i32At(rest, 12),
    <usize>i32At(rest, 13),
  );
  top = loaded = cored = thinned = applied = explained = removed = solved = 0;
  softThin = softSolved = softEnd = 0;
  thinNext = thinEnd = likelyNext = likelyEnd = goneNext = goneEnd = 0;
}

/** Lets go of rows that nothing looks at any more; returns the row of the band that the next of the window belongs in. */
export function artRoom(): i32 {
  const first = max(0, solved - reach);
  const rows = <usize>(loaded - first);
  const gap = <usize>((first - top) * width);
  if (gap != 0) {
    memory.copy(words, words + (gap << 2), (rows * <usize>width) << 2);
    memory.copy(codes, codes + gap, rows * <usize>width);
    memory.copy(cores, cores + gap, rows * <usize>width);
  }
  top = first;
  memory.copy(soft, soft + (<usize>softSolved << 2), <usize>(softEnd - softSolved) << 2);
  softEnd -= softSolved;
  softThin -= softSolved;
  softSolved = 0;
  memory.copy(thin, thin + (<usize>thinNext << 2), <usize>(thinEnd - thinNext) << 2);
  memory.copy(thinByte, thinByte + <usize>thinNext, <usize>(thinEnd - thinNext));
  thinEnd -= thinNext;
  thinNext = 0;
  memory.copy(likely, likely + (<usize>likelyNext << 2), <usize>(likelyEnd - likelyNext) << 2);
  likelyEnd -= likelyNext;
  likelyNext = 0;
  memory.copy(gone, gone + (<usize>goneNext << 2), <usize>(goneEnd - goneNext) << 2);
  goneEnd -= goneNext;
  goneNext = 0;
  return loaded - top;
}

/** How far work gets that has to stay so many rows behind what is done to before `done`. */
// @ts-expect-error: decorator
@inline
function behind(done: i32, now: i32): i32 {
  return done == height ? height : max(now, done - reach);
}

/**
 * Takes the `fresh` rows laid after those held. Of all rows that can be told now winners go to `winners`, and what several planes share to
 * `shared` and `shares`, as `softShares` does. To `told` go: the first and the last but one of these rows, how many points are shared, and how
 * many places at which address have no sure core in what was found pure.
 */
export function artRows(fresh: i32, winners: usize, shared: usize, shares: usize, told: usize): void {
  const at = <usize>((loaded - top) * width);
  codesTo(words + (at << 2), fresh * width, codes + at);
  loaded += fresh;
  findCores(loaded == height ? height : max(cored, loaded - 1));
  bandAt(top * width, loaded - top);
  const held = top * width;

  thinned = behind(cored, thinned);
  for (let end = thinned * width; softThin < softEnd; softThin++) {
    const place = i32At(soft, softThin);
    if (place >= end) break;
    const i = place - held;
    const y = i / width;
    const core = thinCore(i, i - y * width, y);
    if (core == 0) continue;
    put(thin, thinEnd, place);
    store<u8>(thinByte + <usize>thinEnd, <u8>core);
    thinEnd++;
  }
  // What a point looks at must be as it was found pure until it was looked at.
  applied = behind(thinned, applied);
  for (let end = applied * width; thinNext < thinEnd; thinNext++) {
    const place = i32At(thin, thinNext);
    if (place >= end) break;
    const to = cores + <usize>(place - held);
    const core = load<u8>(thinByte + <usize>thinNext);
    if ((core & SURE) == 0 && load<u8>(to) == 0) put(likely, likelyEnd++, place);
    store<u8>(to, core);
  }
  explained = behind(applied, explained);
  for (let end = explained * width; likelyNext < likelyEnd; likelyNext++) {
    const place = i32At(likely, likelyNext);
    if (place >= end) break;
    const i = place - held;
    const y = i / width;
    if (isExplained(i, i - y * width, y)) put(gone, goneEnd++, place);
  }
  removed = behind(explained, removed);
  for (let end = removed * width; goneNext < goneEnd; goneNext++) {
    const place = i32At(gone, goneNext);
    if (place >= end) break;
    store<u8>(cores + <usize>(place - held), 0);
  }

  const from = solved;
  const first = softSolved;
  solved = behind(removed, solved);
  for (let end = solved * width; softSolved < softEnd && i32At(soft, softSolved) < end; ) softSolved++;
  const list = soft + (<usize>first << 2);
  const count = softSolved - first;
  put(told, 0, from);
  put(told, 1, solved);
  put(told, 2, solveRows(list, count, planeCount, from - top, solved - from, winners, shared, shares));
  put(told, 3, count);
  put(told, 4, <i32>list);
}

/** Finds the pure points of the rows to before `end`, and counts flat colours that no ink is near. */
function findCores(end: i32): void {
  if (end == cored) return;
  const first = max(0, cored - 1);
  const at = <usize>((first - top) * width);
  softEnd += pureCores(
    words + (at << 2),
    codes + at,
    width,
    min(height, end + 1) - first,
    cored - first,
    end - cored,
    first * width,
    right,
    below,
    <usize>(((width + 31) >>> 5) << 2),
    cores + at,
    soft + (<usize>softEnd << 2),
  );
  if (tally) tallyFrom(<usize>((cored - top) * width), <usize>((end - top) * width));
  cored = end;
}

/** Counts the points that are sure of an ink though it is far from their colour: the highest bits of core and code. */
function tallyFrom(from: usize, end: usize): void {
  let i = from;
  for (; i + 16 <= end; i += 16) {
    let both = i8x16.bitmask(v128.and(v128.load(codes + i), v128.load(cores + i)));
    for (; both != 0; both &= both - 1) tallyWord(load<i32>(words + ((i + <usize>ctz(both)) << 2)));
  }
  for (; i < end; i++) if (load<u8>(codes + i) & load<u8>(cores + i) & 0x80) tallyWord(load<i32>(words + (i << 2)));
}

/** See core/separate/unplanned.ts: 4096 bins of counts, then of red, green and blue. */
function tallyWord(word: i32): void {
  if (word >= 0) return; // the lowest half of alpha
  const r = word & 255;
  const g = (word >>> 8) & 255;
  const b = (word >>> 16) & 255;
  const at = tally + (<usize>(((r >> 4) << 8) | ((g >> 4) << 4) | (b >> 4)) << 3);
  store<f64>(at, load<f64>(at) + 1);
  store<f64>(at, load<f64>(at, 4096 * 8) + <f64>r, 4096 * 8);
  store<f64>(at, load<f64>(at, 2 * 4096 * 8) + <f64>g, 2 * 4096 * 8);
  store<f64>(at, load<f64>(at, 3 * 4096 * 8) + <f64>b, 3 * 4096 * 8);
}
