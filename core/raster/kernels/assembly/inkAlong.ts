// Where a path over a mask meets ink: the fast twin of ../inkAlongPlain.ts, whose comments state the scheme.

// What a call looks at: rows of `pitch` bytes whose first pixel is (x0, y0) of a raster, and how places of the path lie in that.
let words: usize = 0;
let pitch: usize = 0;
let width: i32 = 0;
let height: i32 = 0;
let x0: i32 = 0;
let y0: i32 = 0;
let left: f64 = 0;
let top: f64 = 0;
let scale: f64 = 0;

function inkAt(x: f64, y: f64): i32 {
  const px = <i32>Math.floor((x - left) * scale) - x0;
  const py = <i32>Math.floor((top - y) * scale) - y0;
  if (px < 0 || py < 0 || px >= width || py >= height) return 0;
  return (load<u32>(words + <usize>py * pitch + (<usize>(px >> 5) << 2)) >>> (px & 31)) & 1;
}

/** The pull of the ink about a place, written to `out`: sums along x and y, and the looks that met ink. */
function pullAt(x: f64, y: f64, feel: f64, reach: i32, out: usize): void {
  let gx = 0;
  let gy = 0;
  let inked = 0;
  for (let j = -reach; j <= reach; j++)
    for (let i = -reach; i <= reach; i++) {
      if (i * i + j * j > reach * reach) continue;
      if (!inkAt(x + (<f64>i * feel) / <f64>reach, y + (<f64>j * feel) / <f64>reach)) continue;
      gx += i;
      gy += j;
      inked++;
    }
  store<i32>(out, gx);
  store<i32>(out + 4, gy);
  store<i32>(out + 8, inked);
}

/**
 * In the mask of `wide` × `high` pixels and rows of `bytes` bytes at `at`, whose first pixel is (x, y) of a raster that begins at `leftOf` and
 * `topOf` with `pixels` a unit: the runs of ink along a path of `count` + 1 corners at `path` (x and y, eight bytes each) with `looks` looks from each corner to the next. Eight words
 * a run to `out`: its first look, one past its last, and the pull of the ink about these two. Returns how many runs there are.
 */
export function inkAlong(
  at: usize,
  bytes: usize,
  wide: i32,
  high: i32,
  x: i32,
  y: i32,
  leftOf: f64,
  topOf: f64,
  pixels: f64,
  path: usize,
  looks: usize,
  count: i32,
  feel: f64,
  reach: i32,
  out: usize,
): i32 {
  words = at;
  pitch = bytes;
  width = wide;
  height = high;
  x0 = x;
  y0 = y;
  left = leftOf;
  top = topOf;
  scale = pixels;
  let runs = 0;
  let look = 0;
  let inked = false;
  let lastX: f64 = 0;
  let lastY: f64 = 0;
  for (let i = 0; i < count; i++) {
    const corner = path + (<usize>i << 4);
    const ax = load<f64>(corner);
    const ay = load<f64>(corner + 8);
    const bx = load<f64>(corner + 16);
    const by = load<f64>(corner + 24);
    const steps = load<i32>(looks + (<usize>i << 2));
    for (let s = 0; s < steps; s++, look++) {
      const px = ax + ((bx - ax) * (<f64>s + 0.5)) / <f64>steps;
      const py = ay + ((by - ay) * (<f64>s + 0.5)) / <f64>steps;
      if (inkAt(px, py)) {
        if (!inked) {
          store<i32>(out, look);
          pullAt(px, py, feel, reach, out + 8);
          inked = true;
        }
        lastX = px;
        lastY = py;
      } else if (inked) {
        store<i32>(out + 4, look);
        pullAt(lastX, lastY, feel, reach, out + 20);
        out += 32;
        runs++;
        inked = false;
      }
    }
  }
  if (inked) {
    store<i32>(out + 4, look);
    pullAt(lastX, lastY, feel, reach, out + 20);
    runs++;
  }
  return runs;
}
