import { expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { faceMasks } from '../../../core/faceMasks.ts';
import { faceWindow } from '../../../core/faceWindow.ts';
import { type Art, hashOf, inkFrom, type Job, newJob } from '../../../core/job/index.ts';
import { equal, getBit, inkCount, type Mask, type Picture, subtract } from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { pxPerMm } from '../../../core/units/index.ts';
import { sharpCodec } from '../../../electron/host/index.ts';

const GAIN = 0.12;
const CORAL = [0xe8, 0x61, 0x3c, 255];
const BLUE = [0x1b, 0x24, 0x40, 255];

/** Pixels of the art a mm of the wood. */
const ART = 40;
/** Bars knocked out of the coral, then lines of coral alone: from and to, mm from the art's left edge. */
const GAPS = [
  [4, 4.3],
  [8, 8.4],
  [12, 12.5],
] as const;
const LINES = [
  [22, 22.25],
  [25, 25.3],
] as const;
/** Night blue joins the coral here, above the middle of the art. */
const NEIGHBOUR = [16, 20] as const;

function drawing(): Picture {
  const [width, height] = [30 * ART, 10 * ART];
  const data = new Uint8Array(width * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const mm = (x + 0.5) / ART;
      const among = (spans: readonly (readonly [number, number])[]) =>
        spans.some(([from, to]) => mm >= from && mm < to);
      if (among([NEIGHBOUR])) data.set(BLUE, (y * width + x) * 4);
      else if (among(LINES) || (mm >= 1 && mm < 16 && !among(GAPS))) data.set(CORAL, (y * width + x) * 4);
    }
  return { width, height, data };
}

const picture = drawing();
const codec = sharpCodec();

async function jobWith(gain: number | undefined): Promise<{ job: Job; art: Map<string, Uint8Array> }> {
  const bytes = await codec.encodePng(picture, ART * 25.4);
  const piece: Art = {
    id: 'bars',
    name: 'bars.png',
    hash: hashOf(bytes),
    mediaType: 'image/png',
    widthPx: picture.width as number,
    heightPx: picture.height as number,
    width: 30,
    height: 10,
    x: 0,
    y: 0,
    rotationDeg: 0,
    mirror: false,
    wrap: 'surface',
    ground: null,
    hidden: false,
  };
  const job = newJob({ name: 'Gaps', deck: deckTemplate('popsicle-8.25')! });
  const coral = {
    ...inkFrom({ name: 'Coral', hex: '#e8613c' }, []),
    ...(gain === undefined ? {} : { gain }),
  };
  const key = inkFrom({ name: 'Night blue', hex: '#1b2440' }, [coral]);
  const { bottom } = job.faces;
  const traps = { ...bottom.traps, width: 0.3, narrowestLine: 0.2 };
  return {
    job: {
      ...job,
      faces: {
        ...job.faces,
        bottom: { ...bottom, art: [piece], inks: [coral, key], traps },
      },
    },
    art: new Map([[piece.hash, bytes]]),
  };
}

/** Where the row through the window's middle has ink: from and to, mm from the art's left edge. */
function spans(row: (x: number) => boolean, width: number, left: number, dpi: number): [number, number][] {
  const found: [number, number][] = [];
  for (let x = 0; x < width; x++) {
    if (!row(x)) continue;
    const at = left + x / pxPerMm(dpi);
    const last = found.at(-1);
    if (last && Math.abs(last[1] - at) < 1e-6) last[1] = at + 1 / pxPerMm(dpi);
    else found.push([at, at + 1 / pxPerMm(dpi)]);
  }
  return found;
}

test('knocked-out gaps come out as drawn when the ink spreads, and thin lines keep a line on the film', async () => {
  const { job } = await jobWith(GAIN);
  const hash = job.faces.bottom.art[0]!.hash;
  const dpi = 1200;
  const look = (film: boolean, of: Job) => {
    const made = faceWindow({
      job: of,
      face: 'bottom',
      pictures: new Map([[hash, picture]]),
      dpi,
      window: { x: -15, y: -1, width: 30, height: 2 },
      film,
    });
    if (!made.ok) throw new Error(made.reason);
    return made.value;
  };
  const film = look(true, job);
  const [coral, blue] = film.prints as [Mask, Mask];
  const y = Math.floor((film.height as number) / 2);
  const left = film.box.x + 15;
  const onFilm = spans((x) => getBit(coral, x, y), film.width, left, dpi);
  // On the wood every edge moves out by the gain: the bars run upright, so that a row tells all.
  const reach = GAIN * pxPerMm(dpi);
  const printed = spans(
    (x) => {
      for (let d = -Math.floor(reach); d <= reach; d++) if (getBit(coral, x + d, y)) return true;
      return false;
    },
    film.width,
    left,
    dpi,
  );
  const point = 1 / pxPerMm(dpi);
  for (const [n, [from, to]] of GAPS.entries()) {
    // Wider on the film by the gain at both sides; on the wood as drawn, to a point at each edge.
    expect(Math.abs(onFilm[n + 1]![0] - onFilm[n]![1] - (to - from + 2 * GAIN))).toBeLessThan(2.5 * point);
    expect(Math.abs(printed[n + 1]![0] - printed[n]![1] - (to - from))).toBeLessThan(4.5 * point);
  }
  // A line of 0.25 mm that the mesh holds down to 0.2 keeps 0.2, and does not lose 0.24.
  const lines = onFilm.slice(-2).map(([from, to]) => to - from);
  expect(lines[0]).toBeGreaterThan(0.2 - 2.5 * point);
  expect(lines[1]).toBeGreaterThan(0.2 - 2.5 * point);
  // The edge against night blue stays, trap and all; night blue itself has no gain.
  expect(Math.abs(onFilm[3]![1] - (NEIGHBOUR[0] + 0.3))).toBeLessThan(1.5 * point);
  const plain = look(false, job);
  expect(equal(plain.prints[1]!, blue)).toBe(true);
  // What is seen on the wood is the print as drawn.
  const without = look(true, (await jobWith(undefined)).job);
  expect(equal(plain.prints[0]!, without.prints[0]!)).toBe(true);
  expect(inkCount(subtract(coral, without.prints[0]!))).toBe(0);
});

test('films honour the gain, proofs and checks show the print as it comes out', async () => {
  const made = async (gain: number | undefined, space: 'film' | 'surface', count: number) => {
    const { job, art } = await jobWith(gain);
    const masks = await faceMasks(job, 'bottom', 150, space, {
      art,
      codec,
      workers: { ...inlineWorkers, count },
    });
    if (!masks.ok) throw new Error(masks.reason);
    return masks.value.prints;
  };
  const [plain, held, four] = [
    await made(undefined, 'film', 1),
    await made(0.25, 'film', 1),
    await made(0.25, 'film', 4),
  ];
  expect(inkCount(held[0]!)).toBeLessThan(0.97 * inkCount(plain[0]!));
  expect(inkCount(subtract(held[0]!, plain[0]!))).toBe(0);
  expect(equal(held[1]!, plain[1]!)).toBe(true);
  expect(held.every((mask, i) => equal(mask, four[i]!))).toBe(true);
  const seen = [await made(undefined, 'surface', 1), await made(0.25, 'surface', 1)];
  expect(equal(seen[0]![0]!, seen[1]![0]!)).toBe(true);
});
