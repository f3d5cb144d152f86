import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { discHalfWidths } from '../../core/raster/disc.ts';
import { errorDiffusePlain } from '../../core/raster/errorDiffuse.ts';
import {
  blankMask,
  blueNoiseTile,
  cheapestPath,
  components,
  distanceSquared,
  downsample,
  encodeG4,
  errorDiffuse,
  grow,
  inkCount,
  joined,
  type Mask,
  msbRows,
  screenTile,
  subtract,
  thinParts,
  thresholdMask,
  warpArgmax,
} from '../../core/raster/index.ts';
import { growRowsPlain } from '../../core/raster/kernels/growPlain.ts';
import { kernels } from '../../core/raster/kernels/load.ts';
import { thresholdPlain } from '../../core/raster/kernels/thresholdPlain.ts';
import { warpRows } from '../../core/raster/kernels/warpPlain.ts';
import { signedWords, tailBits } from '../../core/raster/mask.ts';
import { imageMagick } from './imageMagick.ts';
import { coverage, cutBand, enlarging, lineArt, tones } from './lineArt.ts';
import { OpenCv } from './opencv.ts';
import { median, ms, table } from './table.ts';

/** One kernel: ours, its plain twin and a peer, each timed in turns on the same picture. */
interface Case {
  readonly name: string;
  readonly ours: () => unknown;
  readonly plain?: () => unknown;
  /** Milliseconds and a number to hold against ours. */
  readonly peer?: (() => Promise<{ ms: number; check: unknown }>) | undefined;
  readonly peerName?: string;
  /** A number that stands for the result, taken outside the timed part. */
  readonly check: () => unknown;
  /** Bytes that must pass through memory at least once. */
  readonly bytes: number;
}

const quick = process.argv.includes('--quick');
const [width, height] = quick ? [4842, 1240] : [19370, 4960];
const rounds = quick ? 5 : 7;
const dir = mkdtempSync(join(tmpdir(), 'kickflat-bench-'));
const opencv = OpenCv.start();

/** GB/s of a plain copy of 96 MB: the floor below every kernel. */
function copyRate(): number {
  const from = new Uint8Array(96e6).fill(1);
  const to = new Uint8Array(96e6);
  const times: number[] = [];
  for (let i = 0; i < 7; i++) {
    const start = performance.now();
    to.set(from);
    times.push(performance.now() - start);
  }
  return 96e6 / 1e6 / median(times);
}

async function measure(cases: readonly Case[], rate: number): Promise<string[][]> {
  const rows: string[][] = [];
  for (const item of cases) {
    const ours: number[] = [];
    const plain: number[] = [];
    const peer: number[] = [];
    let peerCheck: unknown;
    for (let round = 0; round < rounds; round++) {
      let start = performance.now();
      item.ours();
      ours.push(performance.now() - start);
      if (item.plain && round < 5) {
        start = performance.now();
        item.plain();
        plain.push(performance.now() - start);
      }
      if (item.peer && round < 5) {
        const answer = await item.peer();
        peer.push(answer.ms);
        peerCheck = answer.check;
      }
    }
    item.ours();
    const check = item.check();
    const same =
      peerCheck === undefined || peerCheck === null
        ? ''
        : JSON.stringify(peerCheck) === JSON.stringify(check)
          ? 'equal'
          : `differs: ${JSON.stringify(peerCheck)}`;
    const own = median(ours);
    rows.push([
      item.name,
      ms(own),
      ms(ours[0]!),
      plain.length ? ms(median(plain)) : '–',
      peer.length ? `${item.peerName ?? 'OpenCV'} ${ms(median(peer))}` : '–',
      peer.length ? `${(median(peer) / own).toFixed(1)} ×` : '–',
      ms(item.bytes / 1e6 / rate),
      JSON.stringify(check),
      same,
    ]);
    process.stderr.write(`${item.name}: ${ms(own)} ms\n`);
  }
  return rows;
}

/** Writes a picture for the peers, one byte a point. */
async function give(name: string, bytes: Uint8Array, w: number, h: number, planes = 1): Promise<void> {
  const path = join(dir, name);
  writeFileSync(path, bytes);
  await opencv?.ask('load', { path, width: w, height: h, planes });
}

function unpacked(mask: Mask): Uint8Array {
  const out = new Uint8Array(mask.width * mask.height);
  for (let y = 0, i = 0; y < mask.height; y++)
    for (let x = 0; x < mask.width; x++, i++)
      out[i] = (mask.data[y * mask.stride + (x >>> 5)]! >>> (x & 31)) & 1 ? 255 : 0;
  return out;
}

async function maskCases(rate: number): Promise<string[][]> {
  const art = lineArt(width, height);
  await give('art', unpacked(art), width, height);
  const out = blankMask(width, height);
  const plainOut = blankMask(width, height);
  const bytes = art.data.byteLength;
  let thin: Mask = out;
  let code: Uint8Array = new Uint8Array(0);
  let pieces = 0;
  const ring = subtract(grow(art, 8), art);
  let reached: Mask = out;
  let small = 0;
  let rows = 0;
  let squares: Uint32Array = new Uint32Array(0);
  const band = { y: Math.floor(height / 3), rows: 256 };
  const cost = cutBand(300, 10000);
  let path = 0;
  const growCases = [4, 12, 24].map(
    (r): Case => ({
      name: `disc growth, r = ${r}`,
      ours: () => grow(art, r, out),
      plain: () =>
        growRowsPlain(
          signedWords(art),
          signedWords(plainOut),
          {
            stride: art.stride,
            words: (width + 31) >>> 5,
            tail: tailBits(width),
            height,
            half: discHalfWidths(r),
          },
          false,
        ),
      peer: opencv ? () => opencv.ask('dilate', { radius: r }) : undefined,
      check: () => inkCount(out),
      bytes: 2 * bytes,
    }),
  );
  return measure(
    [
      ...growCases,
      {
        name: 'thin parts, r = 4',
        ours: () => {
          thin = thinParts(art, 4);
        },
        peer: opencv ? () => opencv.ask('open', { radius: 4 }) : undefined,
        check: () => inkCount(thin),
        bytes: 4 * bytes,
      },
      {
        name: 'components and areas (plain)',
        ours: () => {
          pieces = components(art).length;
        },
        peer: opencv ? () => opencv.ask('components') : undefined,
        check: () => pieces,
        bytes,
      },
      {
        name: 'joined to a seed (plain)',
        ours: () => {
          reached = joined(art, ring);
        },
        check: () => inkCount(reached),
        bytes: 3 * bytes,
      },
      {
        name: 'Group 4 from packed rows (plain)',
        ours: () => {
          code = encodeG4(art);
        },
        check: () => code.length,
        bytes,
      },
      {
        name: 'one-bit rows, high bit first (plain)',
        ours: () => {
          rows = msbRows(art).length;
        },
        check: () => rows,
        bytes: 2 * bytes,
      },
      {
        name: 'sixth of the size, box average (plain)',
        ours: () => {
          small = downsample(art, 6).data.length;
        },
        check: () => small,
        bytes,
      },
      {
        name: 'exact distances, 256 rows, limit 24 (plain)',
        ours: () => {
          squares = distanceSquared(art, band, 24);
        },
        check: () => squares.reduce((sum, d) => sum + d, 0),
        bytes: 256 * width * 5,
      },
      {
        name: 'cheapest path, 300 × 10000 (plain)',
        ours: () => {
          path = cheapestPath(cost, 300, 10000, 5).cost;
        },
        check: () => path,
        bytes: cost.byteLength,
      },
    ],
    rate,
  );
}

async function warpCases(rate: number): Promise<string[][]> {
  const [w, h] = quick ? [1550, 398] : [6200, 1590];
  const planes = coverage(6, w, h);
  const grid = enlarging(w, h, width, height);
  const all = new Uint8Array(6 * w * h);
  planes.forEach((plane, k) => {
    all.set(plane, k * w * h);
  });
  await give('coverage', all, w, h, 6);
  const masks = planes.slice(1).map(() => blankMask(width, height));
  const plainMasks = planes.slice(1).map(() => blankMask(width, height));
  return measure(
    [
      {
        name: `warp + argmax, 6 planes ${w} × ${h}`,
        ours: () => warpArgmax(planes, w, h, grid, masks, 0, 0, width, height),
        plain: () => warpRows(planes, w, h, grid, plainMasks, 0, 0, width, height),
        // Rounded weights and samples: near the edges its winners may differ from exact ones by a few points.
        peer: opencv
          ? async () => ({ ms: (await opencv.ask('argmax', { width, height })).ms, check: null })
          : undefined,
        check: () => masks.map(inkCount),
        bytes: all.length + 5 * masks[0]!.data.byteLength,
      },
    ],
    rate,
  );
}

async function toneCases(rate: number): Promise<string[][]> {
  const plane = tones(width, height);
  await give('tones', plane.data, width, height);
  // ImageMagick's usual policy refuses pictures of this width and memory: it gets the left half of every other row, and its
  // time counts four times.
  const [w, h] = [Math.round(width / 2), Math.floor(height / 2)];
  const quarter = join(dir, 'tones.pgm');
  const left = Buffer.concat(
    Array.from({ length: h }, (_, y) => plane.data.subarray(2 * y * width, 2 * y * width + w)),
  );
  writeFileSync(quarter, Buffer.concat([Buffer.from(`P5\n${w} ${h}\n255\n`), left]));
  const magick = (operation: readonly string[]) => {
    if (imageMagick(quarter, operation) === null) return undefined;
    return async () => ({ ms: 4 * (imageMagick(quarter, operation) ?? Number.NaN), check: null });
  };
  const noise = blueNoiseTile();
  const screen = screenTile({ lpi: 45, angle: 22.5, dot: 'round', dpi: 600 });
  let dots: Mask = blankMask(1, 1);
  const out = blankMask(width, height);
  const bytes = plane.data.length + out.data.byteLength;
  return measure(
    [
      {
        name: 'screen of dots, 45 lpi, 22.5°',
        ours: () => {
          dots = thresholdMask(plane, screen);
        },
        plain: () => thresholdPlain(plane, screen, out),
        peer: magick(['-ordered-dither', 'h8x8a']),
        peerName: 'ImageMagick (4 quarters)',
        check: () => inkCount(dots),
        bytes,
      },
      {
        name: 'blue noise',
        ours: () => {
          dots = thresholdMask(plane, noise);
        },
        plain: () => thresholdPlain(plane, noise, out),
        peer: opencv
          ? () => opencv.ask('threshold', { tile: [...noise.data], side: noise.width })
          : undefined,
        peerName: 'numpy',
        check: () => inkCount(dots),
        bytes,
      },
      {
        name: 'error diffusion, serpentine',
        ours: () => {
          dots = errorDiffuse(plane);
        },
        plain: () => errorDiffusePlain(plane, blankMask(width, height)),
        peer: magick(['-dither', 'FloydSteinberg', '-monochrome']),
        peerName: 'ImageMagick (4 quarters)',
        check: () => inkCount(dots),
        bytes,
      },
    ],
    rate,
  );
}

try {
  const rate = copyRate();
  const head = [
    'kernel',
    'ms',
    'first',
    'plain twin',
    'peer',
    'ratio',
    'memory limit',
    'checksum',
    'against the peer',
  ];
  const rows = [head, ...(await maskCases(rate)), ...(await warpCases(rate)), ...(await toneCases(rate))];
  process.stdout.write(
    `\nRaster kernels, ${width} × ${height} points, one thread; medians of ${rounds} turns (peers and plain twins 5), milliseconds.\n` +
      `${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}; copying runs at ${rate.toFixed(1)} GB/s; load of the machine ${loadavg()[0]!.toFixed(1)}.\n` +
      `${opencv ? '' : 'OpenCV (python3-opencv) is not installed: its column is empty.\n'}\n${table(rows)}\n\n` +
      `Peak memory of this process with all test pictures: ${Math.round(process.resourceUsage().maxRSS / 1024)} MB; ` +
      `the kernels' own scratch: ${((kernels()?.memory.buffer.byteLength ?? 0) / 1e6).toFixed(1)} MB.\n`,
  );
} finally {
  opencv?.stop();
  rmSync(dir, { recursive: true, force: true });
}
