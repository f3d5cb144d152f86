import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { deflateSync } from 'node:zlib';
import { faceMasks } from '../../core/faceMasks.ts';
import { turnLeft } from '../../core/film/turn.ts';
import { discHalfWidths } from '../../core/raster/disc.ts';
import { distancePlain } from '../../core/raster/distance.ts';
import { downsamplePlain } from '../../core/raster/downsample.ts';
import { screenEnlargedPlain } from '../../core/raster/enlarge.ts';
import { errorDiffusePlain } from '../../core/raster/errorDiffuse.ts';
import { openedPlain } from '../../core/raster/grow.ts';
import {
  blankMask,
  blankPlane,
  blueNoiseTile,
  cheapestPath,
  components,
  deflate,
  distanceSquared,
  downsample,
  encodeG4,
  errorDiffuse,
  grow,
  inkCount,
  joined,
  lookUp,
  type Mask,
  msbRows,
  screenEnlarged,
  screenTile,
  smallPieces,
  subtract,
  thinParts,
  thresholdMask,
  thumbnail,
  union,
  warpArgmax,
} from '../../core/raster/index.ts';
import { deflatePlain } from '../../core/raster/kernels/deflatePlain.ts';
import { encodeG4Plain } from '../../core/raster/kernels/encodeG4Plain.ts';
import { growRowsPlain } from '../../core/raster/kernels/growPlain.ts';
import { kernels, scratchUse } from '../../core/raster/kernels/load.ts';
import { lookUpPlain } from '../../core/raster/kernels/lookUpPlain.ts';
import { msbRowsPlain } from '../../core/raster/kernels/msbRowsPlain.ts';
import { thresholdPlain } from '../../core/raster/kernels/thresholdPlain.ts';
import { thumbnailPlain } from '../../core/raster/kernels/thumbnailPlain.ts';
import { warpRows } from '../../core/raster/kernels/warpPlain.ts';
import { signedWords, tailBits } from '../../core/raster/mask.ts';
import { smallPiecesPlain } from '../../core/raster/smallPieces.ts';
import { wordsOf } from '../../core/separate/codes.ts';
import { codeOf, LABEL, labelsOf } from '../../core/separate/labels.ts';
import { inlineWorkers } from '../../core/tasks.ts';
import { TRIAL_DPI, trialPart, USUAL_TRIALS } from '../../core/trapTrials.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../electron/host/index.ts';
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

/** Processor time of a piece of work, ms: what others do on the machine meanwhile counts little. */
function processorMs(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** GB/s read and written by a plain copy of 96 MB, counted both ways: the floor below every kernel. */
function copyRate(): number {
  const from = new Uint8Array(96e6).fill(1);
  const to = new Uint8Array(96e6);
  const times: number[] = [];
  for (let i = 0; i < 7; i++) {
    times.push(processorMs(() => to.set(from)));
  }
  return (2 * 96e6) / 1e6 / median(times);
}

async function measure(cases: readonly Case[], rate: number): Promise<string[][]> {
  const rows: string[][] = [];
  for (const item of cases) {
    const ours: number[] = [];
    const plain: number[] = [];
    const peer: number[] = [];
    let peerCheck: unknown;
    for (let round = 0; round < rounds; round++) {
      ours.push(processorMs(item.ours));
      if (item.plain && round < 5) plain.push(processorMs(item.plain));
      if (item.peer && round < 5) {
        const answer = await item.peer();
        peer.push(answer.ms);
        peerCheck = answer.check;
      }
    }
    scratchUse.most = 0;
    item.ours();
    const scratch = scratchUse.most;
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
      (scratch / 1e6).toFixed(1),
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
  const packed = msbRows(art);
  const ring = subtract(grow(art, 8), art);
  let reached: Mask = out;
  let small = blankPlane(1, 1);
  let inked: Mask = out;
  let turned: Mask = out;
  let rows = 0;
  const band = { y: Math.floor(height / 3), rows: 256 };
  const squares = new Uint32Array(band.rows * width);
  const plainSquares = new Uint32Array(band.rows * width);
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
          thin = thinParts(art, 4, out);
        },
        plain: () => openedPlain(art, 4, plainOut, true),
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
        name: 'pieces of fewer than 50 points',
        ours: () => {
          pieces = smallPieces(art, 50).length;
        },
        plain: () => smallPiecesPlain(art, 50),
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
        name: 'Group 4 from packed rows',
        ours: () => {
          code = encodeG4(art);
        },
        plain: () => encodeG4Plain(art),
        check: () => code.length,
        bytes,
      },
      {
        name: 'deflate of the packed rows',
        ours: () => {
          code = deflate(packed);
        },
        plain: () => deflatePlain(packed),
        peer: async () => {
          let theirs = 0;
          const time = processorMs(() => {
            theirs = deflateSync(packed, { level: 6 }).length;
          });
          process.stderr.write(`zlib makes ${theirs} bytes of them\n`);
          return { ms: time, check: null };
        },
        peerName: 'zlib, level 6',
        check: () => code.length,
        bytes,
      },
      {
        name: 'one-bit rows, high bit first',
        ours: () => {
          rows = msbRows(art).length;
        },
        plain: () => msbRowsPlain(art, (width + 7) >>> 3, 0, new Uint8Array(((width + 7) >>> 3) * height)),
        check: () => rows,
        bytes: 2 * bytes,
      },
      {
        name: 'sixth of the size, box average',
        ours: () => {
          small = downsample(art, 6);
        },
        plain: () => downsamplePlain(art, 6, blankPlane(Math.ceil(width / 6), Math.ceil(height / 6))),
        peer: opencv
          ? async () => ({ ms: (await opencv.ask('smaller', { factor: 6 })).ms, check: null })
          : undefined,
        check: () => small.data.reduce((sum, v) => sum + v, 0),
        bytes: bytes + (bytes * 8) / 36,
      },
      {
        name: 'fifth of the size, no ink lost',
        ours: () => {
          inked = thumbnail(art, 5);
        },
        plain: () =>
          thumbnailPlain(art, 5, { x: 0, y: 0, width, height }, blankMask(inked.width, inked.height)),
        check: () => inkCount(inked),
        bytes: bytes + bytes / 25,
      },
      {
        name: 'ink of either of two masks (plain)',
        ours: () => union(art, ring, out),
        peer: opencv ? () => opencv.ask('or') : undefined,
        check: () => inkCount(out),
        bytes: 3 * bytes,
      },
      {
        name: 'quarter turn (plain)',
        ours: () => {
          turned = turnLeft(art);
        },
        peer: opencv ? () => opencv.ask('turn') : undefined,
        check: () => inkCount(turned),
        bytes: 2 * bytes,
      },
      {
        name: 'exact distances, 256 rows, limit 24',
        ours: () => {
          distanceSquared(art, band, 24, squares);
        },
        plain: () => distancePlain(art, band, 24, plainSquares),
        peer: opencv ? () => opencv.ask('distance', band) : undefined,
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
  const cubicMasks = planes.slice(1).map(() => blankMask(width, height));
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
      {
        name: 'the same, bicubic',
        ours: () => warpArgmax(planes, w, h, grid, cubicMasks, 0, 0, width, height, 'bicubic'),
        peer: opencv
          ? async () => ({ ms: (await opencv.ask('argmax', { width, height, cubic: true })).ms, check: null })
          : undefined,
        check: () => cubicMasks.map(inkCount),
        bytes: all.length + 5 * masks[0]!.data.byteLength,
      },
    ],
    rate,
  );
}

/** Nearest of six inks for every point of a picture with soft edges, a quarter of the film's width and height. */
async function classifyCases(rate: number): Promise<string[][]> {
  const [w, h] = [Math.ceil(width / 2.5), Math.ceil(height / 4)];
  const inks = ['#ffffff', '#e8613c', '#1b2440', '#f0ecdc', '#2f7f6f', '#d9a43b'];
  const colours = inks.map((hex) => [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16)));
  const planes = coverage(6, w, h);
  const data = new Uint8Array(w * h * 4);
  for (let i = 0; i < w * h; i++) {
    for (let c = 0; c < 3; c++)
      data[4 * i + c] = Math.round(
        planes.reduce((sum, plane, k) => sum + plane[i]! * colours[k]![c]!, 0) / 255,
      );
    data[4 * i + 3] = 255;
  }
  await give('picture', data, 4 * w, h);
  await opencv?.ask('table', { colours });
  const picture = { width: w, height: h, data };
  const labels = labelsOf({ inks: inks.map((hex) => ({ hex })), ground: null });
  const codes = new Uint8Array(w * h);
  const plainCodes = new Uint8Array(w * h);
  const code = (word: number) =>
    codeOf(labels, word & 255, (word >>> 8) & 255, (word >>> 16) & 255, word >>> 24);
  const nearest = {
    // Each time as if it had never seen the picture: no memo is kept.
    ours: () => lookUp(wordsOf(picture), code, codes),
    check: () => codes.reduce((sum, one) => sum + (one & LABEL), 0),
    bytes: 5 * w * h,
  };
  return measure(
    [
      {
        ...nearest,
        name: `nearest of 6 inks, ${w} × ${h}`,
        plain: () => lookUpPlain(wordsOf(picture), code, plainCodes),
        // Our codes also tell how near; at soft edges the nearest by eye may be another than the nearest in bytes.
        peer: opencv
          ? async () => ({ ms: (await opencv.ask('nearest', { colours })).ms, check: null })
          : undefined,
        peerName: 'OpenCV distances',
      },
      {
        ...nearest,
        name: 'the same, against a table made beforehand',
        peer: opencv ? async () => ({ ms: (await opencv.ask('classify')).ms, check: null }) : undefined,
        peerName: 'numpy table',
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
  const coarse = tones(Math.ceil(width / 4), Math.ceil(height / 4));
  const noise = blueNoiseTile();
  const screen = screenTile({ lpi: 45, angle: 22.5, dot: 'round', dpi: 600 });
  let dots: Mask = blankMask(width, height);
  const out = blankMask(width, height);
  const bytes = plane.data.length + out.data.byteLength;
  const noisy = {
    ours: () => {
      dots = thresholdMask(plane, noise, dots);
    },
    check: () => inkCount(dots),
    bytes,
  };
  return measure(
    [
      {
        name: 'screen of dots, 45 lpi, 22.5°',
        ours: () => {
          dots = thresholdMask(plane, screen, dots);
        },
        plain: () => thresholdPlain(plane, screen, out),
        peer: magick(['-ordered-dither', 'h8x8a']),
        peerName: 'ImageMagick (4 quarters)',
        check: () => inkCount(dots),
        bytes,
      },
      {
        ...noisy,
        name: 'blue noise',
        plain: () => thresholdPlain(plane, noise, out),
        peer: opencv
          ? () => opencv.ask('threshold', { tile: [...noise.data], side: noise.width })
          : undefined,
        peerName: 'numpy',
      },
      {
        ...noisy,
        name: 'the same, against an ordered pattern',
        peer: magick(['-ordered-dither', 'o8x8']),
        peerName: 'ImageMagick (4 quarters)',
      },
      {
        // What a toned film does: its tones are kept four times coarser, and the enlarged plane never exists.
        name: 'tones enlarged 4 × and screened',
        ours: () => screenEnlarged(coarse, 4, screen, dots),
        plain: () => screenEnlargedPlain(coarse, 4, screen, out),
        check: () => inkCount(dots),
        bytes: coarse.data.length + out.data.byteLength,
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

/** 200 trials of register error on the demonstration's bottom at its own trap width, on this one thread. */
async function registerCase(rate: number): Promise<string[][]> {
  const codec = sharpCodec();
  const folder = fileURLToPath(new URL('../../build/demo', import.meta.url));
  const demo = await demoJob(folder, nodeFiles(), codec);
  if (!demo.ok) throw new Error(demo.reason);
  const { job, art } = demo.value;
  const made = await faceMasks(job, 'bottom', TRIAL_DPI, 'surface', { art, codec, workers: inlineWorkers });
  if (!made.ok) throw new Error(made.reason);
  const settings = job.faces.bottom;
  const tried = { settings, separations: made.value.separations, dpi: TRIAL_DPI };
  const part = { toleranceMm: 0.4, trials: USUAL_TRIALS, seed: 1, widthMm: settings.traps.width };
  let shown: readonly { readonly woodMm2: number }[] = [];
  return measure(
    [
      {
        name: `register errors, ${USUAL_TRIALS} trials of the demo at ${TRIAL_DPI} dpi (plain)`,
        ours: () => {
          shown = trialPart(tried, { ...part, from: 0, count: USUAL_TRIALS });
        },
        check: () => Math.round(shown.reduce((sum, { woodMm2 }) => sum + woodMm2, 0)),
        bytes: made.value.separations.reduce((sum, mask) => sum + mask.data.byteLength, 0),
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
    'scratch, MB',
    'checksum',
    'against the peer',
  ];
  const rows = [
    head,
    ...(await maskCases(rate)),
    ...(await warpCases(rate)),
    ...(await classifyCases(rate)),
    ...(await toneCases(rate)),
    ...(await registerCase(rate)),
  ];
  process.stdout.write(
    `\nRaster kernels, ${width} × ${height} points, one thread; medians of ${rounds} turns (peers and plain twins 5), milliseconds of processor time.\n` +
      `${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}; copying reads and writes ${rate.toFixed(1)} GB/s; load of the machine ${loadavg()[0]!.toFixed(1)}.\n` +
      `${opencv ? '' : 'OpenCV (python3-opencv) is not installed: its column is empty.\n'}\n${table(rows)}\n\n` +
      `Peak memory of this process with all test pictures: ${Math.round(process.resourceUsage().maxRSS / 1024)} MB; ` +
      `the kernels' own scratch: ${((kernels()?.memory.buffer.byteLength ?? 0) / 1e6).toFixed(1)} MB.\n`,
  );
} finally {
  opencv?.stop();
  rmSync(dir, { recursive: true, force: true });
}
