// Ink spread into others as far as a way leads: the fast twin of ../spreadPlain.ts. Packed rows of `pitch` bytes, a multiple of 16,
// of which `words` 32-bit words are used.

/** A word with its points' neighbours in the same row. */
// @ts-ignore: decorator
@inline
function sideways(at: usize, first: bool, last: bool): i32 {
  const here = load<i32>(at);
  let near = here | (here << 1) | (here >>> 1);
  if (!first) near |= load<i32>(at - 4) >>> 31;
  if (!last) near |= load<i32>(at + 4) << 31;
  return near;
}

/** Whether there is any ink in `bytes` from `at`, a multiple of 16. */
export function inked(at: usize, bytes: usize): i32 {
  for (let i: usize = 0; i < bytes; i += 16) if (v128.any_true(v128.load(at + i))) return 1;
  return 0;
}

/**
 * Where ink is in `bytes` from `at`, in stretches of so many bytes each, multiples of 16: to `runs` the first byte of each run of stretches with
 * ink and the one after its last, two words each. Returns how many runs there are.
 */
export function inkedRuns(at: usize, bytes: usize, stretch: usize, runs: usize): i32 {
  let count = 0;
  let open = false;
  for (let from: usize = 0; from < bytes; from += stretch) {
    const end = min(bytes, from + stretch);
    if (inked(at + from, end - from) == 0) {
      open = false;
      continue;
    }
    if (!open) {
      store<i32>(runs + (<usize>count << 3), <i32>from);
      count++;
      open = true;
    }
    store<i32>(runs + (<usize>(count - 1) << 3), <i32>end, 4);
  }
  return count;
}

/**
 * Cuts `room` to what `grown` covers and `keepOut` (0 for none) does not, and begins `reached` (blank before): what `seed` covers of it or,
 * with a first `step`, touches. `places` takes the byte offsets of the room's words with ink; their count is returned.
 */
export function beginSpread(
  seed: usize,
  grown: usize,
  keepOut: usize,
  room: usize,
  reached: usize,
  places: usize,
  pitch: i32,
  words: i32,
  rows: i32,
  step: i32,
): i32 {
  let n = 0;
  for (let y = 0; y < rows; y++) {
    const row = <usize>y * pitch;
    for (let i = 0; i < pitch; i += 16) {
      const at = row + i;
      let ink = v128.and(v128.load(room + at), v128.load(grown + at));
      if (keepOut != 0) ink = v128.andnot(ink, v128.load(keepOut + at));
      v128.store(room + at, ink);
      if (!v128.any_true(ink)) continue;
      for (let k = 0; k < 16; k += 4) {
        const place = at + k;
        const word = load<i32>(room + place);
        if (word == 0) continue;
        store<u32>(places + (<usize>n << 2), <u32>place);
        n++;
        let near = load<i32>(seed + place);
        if (step != 0) {
          const first = i + k == 0;
          const last = i + k == (words - 1) << 2;
          near = sideways(seed + place, first, last);
          if (y > 0) near |= sideways(seed + place - pitch, first, last);
          if (y + 1 < rows) near |= sideways(seed + place + pitch, first, last);
        }
        store<i32>(reached + place, near & word);
      }
    }
  }
  return n;
}

/** Drops from the `n` listed places those whose room is all reached; returns how many are left. */
function stillOpen(room: usize, reached: usize, places: usize, n: i32): i32 {
  let left = 0;
  for (let i = 0; i < n; i++) {
    const place = load<u32>(places + (<usize>i << 2));
    if (load<i32>(room + place) == load<i32>(reached + place)) continue;
    store<u32>(places + (<usize>left << 2), place);
    left++;
  }
  return left;
}

/**
 * Steps 2 to `steps` through the room, each from all that was reached before it, to the eight neighbours at odd steps and to four at even ones. The
 * list of places is written over; `fresh` has room for as many words.
 */
export function spreadSteps(
  room: usize,
  reached: usize,
  places: usize,
  n: i32,
  fresh: usize,
  pitch: i32,
  words: i32,
  rows: i32,
  steps: i32,
): void {
  let open = stillOpen(room, reached, places, n);
  const end = <u32>rows * pitch;
  // A step to the four may add nothing where one to the eight still does.
  let still = 0;
  for (let step = 2; step <= steps && still < 2 && open > 0; step++) {
    const eight = (step & 1) == 1;
    let any = 0;
    for (let i = 0; i < open; i++) {
      const place = load<u32>(places + (<usize>i << 2));
      const column = place % <u32>pitch;
      const first = column == 0;
      const last = column == <u32>((words - 1) << 2);
      const at = reached + place;
      let near = sideways(at, first, last);
      if (place >= <u32>pitch) near |= eight ? sideways(at - pitch, first, last) : load<i32>(at - pitch);
      if (place + pitch < end) near |= eight ? sideways(at + pitch, first, last) : load<i32>(at + pitch);
      near &= load<i32>(room + place);
      any |= near & ~load<i32>(at);
      store<i32>(fresh + (<usize>i << 2), near);
    }
    for (let i = 0; i < open; i++)
      store<i32>(reached + load<u32>(places + (<usize>i << 2)), load<i32>(fresh + (<usize>i << 2)));
    still = any == 0 ? still + 1 : 0;
    open = stillOpen(room, reached, places, open);
  }
}
