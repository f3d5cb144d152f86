import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { LINEAR_OF_BYTE, linearOfHex, parseHex } from '../../core/colour/index.ts';
import {
  blueNoiseTile,
  errorDiffuseMixtures,
  getBit,
  type Mask,
  type Picture,
  thresholdShares,
} from '../../core/raster/index.ts';
import { suggestInks, unmixPicture, unmixTable } from '../../core/separate/index.ts';
import { diffuseShares } from './diffuseShares.ts';
import { type Light, meanDifference, seen } from './eye.ts';

/**
 * Index separations of photographs the project did not take, against plain error diffusion to the same colours by ImageMagick,
 * both as an eye sees them from 60 cm: mean ΔE00 to the photograph seen alike. A dot is 0.25 mm.
 */
const PHOTOS = fileURLToPath(new URL('../fixtures/photos/', import.meta.url));
const DOT_MM = 0.25;
const POINTS_A_DEGREE = 1 / ((Math.atan(DOT_MM / 600) * 180) / Math.PI);
const VENEER = '#dcb98a';

function imageMagick(): boolean {
  try {
    execFileSync('convert', ['-version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

const dir = mkdtempSync(join(tmpdir(), 'kickflat-photos-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));

async function pictureOf(path: string): Promise<Picture> {
  const { data, info } = await sharp(path)
    .toColourspace('srgb')
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data: Uint8Array.from(data) };
}
const lightOf = ({ width, height, data }: Picture): Light => ({
  width,
  height,
  data: Float64Array.from(
    { length: 3 * width * height },
    (_, i) => LINEAR_OF_BYTE[data[4 * Math.floor(i / 3) + (i % 3)]!]!,
  ),
});

/** Dots as light: the ink at each point, or the veneer. */
function dotsAsLight(masks: readonly Mask[], hexes: readonly string[]): Light {
  const { width, height } = masks[0]!;
  const colours = hexes.map(linearOfHex);
  const bare = linearOfHex(VENEER);
  const data = new Float64Array(3 * width * height);
  for (let i = 0; i < width * height; i++) {
    const ink = masks.findIndex((mask) => getBit(mask, i % width, Math.floor(i / width)));
    data.set(ink < 0 ? bare : colours[ink]!, 3 * i);
  }
  return { width, height, data };
}

/** Error diffusion to the same colours by ImageMagick, as it does it. */
async function plain(path: string, hexes: readonly string[]): Promise<Light> {
  const palette = join(dir, 'palette.png');
  const out = join(dir, 'out.png');
  const colours = [...hexes, VENEER].map(parseHex);
  await sharp(Buffer.from(colours.flat()), { raw: { width: colours.length, height: 1, channels: 3 } })
    .png()
    .toFile(palette);
  execFileSync('convert', [path, '-dither', 'FloydSteinberg', '-remap', palette, `PNG24:${out}`]);
  return lightOf(await pictureOf(out));
}

const rows: string[] = [];
afterAll(() => {
  process.stdout.write(
    `\nmean ΔE00 from 60 cm, ${DOT_MM} mm dots\nphotograph     inks  ours  shares  even grain  ImageMagick\n${rows.join('\n')}\n`,
  );
});

for (const file of readdirSync(PHOTOS).filter((name) => name.endsWith('.jpg')))
  for (const count of [4, 7])
    test.skipIf(!imageMagick())(
      `${file} in ${count} inks looks at least as much like the photograph as plain error diffusion`,
      async () => {
        const path = join(PHOTOS, file);
        const picture = await pictureOf(path);
        const hexes = suggestInks(picture, count, {}).map(({ hex }) => hex);
        const palette = { bare: linearOfHex(VENEER), inks: hexes.map(linearOfHex) };
        const { planes, width, height } = unmixPicture(picture, unmixTable(palette));
        const truth = seen(lightOf(picture), POINTS_A_DEGREE);
        const off = (light: Light) => meanDifference(truth, seen(light, POINTS_A_DEGREE));
        const colours = [palette.bare, ...palette.inks];
        const ours = off(dotsAsLight(errorDiffuseMixtures(planes, colours, width, height), hexes));
        const shares = off(dotsAsLight(diffuseShares(planes, width, height), hexes));
        const light = (k: number) => {
          const [r, g, b] = k === 0 ? palette.bare : palette.inks[k - 1]!;
          return 0.2126 * r + 0.7152 * g + 0.0722 * b;
        };
        const order = planes.map((_, k) => k).sort((a, b) => light(b) - light(a));
        const even = off(dotsAsLight(thresholdShares(planes, width, height, blueNoiseTile(), order), hexes));
        const theirs = off(await plain(path, hexes));
        rows.push(
          `${file.padEnd(14)} ${hexes.length}     ${ours.toFixed(2).padStart(5)}   ${shares.toFixed(2).padStart(5)}   ${even.toFixed(2).padStart(5)}       ${theirs.toFixed(2).padStart(5)}`,
        );
        expect(ours).toBeLessThanOrEqual(theirs);
      },
      120_000,
    );
