import { readFile } from 'node:fs/promises';
import { zipSync } from 'fflate';
import sharp, { type Sharp } from 'sharp';
import { writeGpl, writePaletteJson } from '../../core/colour/index.ts';
import { deckTemplate } from '../../core/deck/index.ts';
import { hashOf, inkFrom, newJob, packJob, placeArt } from '../../core/job/index.ts';
import { groupsByPdfLib } from '../fixtures/layeredFiles.ts';
import { sfntOfWoff } from './sfnt.ts';

/** What a stranger's file may be taken for; each is a door of its own into the program. */
export const KINDS = [
  'png',
  'jpeg',
  'webp',
  'tiff',
  'avif',
  'svg',
  'open raster',
  'pdf',
  'outline svg',
  'dxf',
  'gpl palette',
  'json palette',
  'job',
  'deck json',
  'ttf',
  'woff',
  'woff2',
] as const;
export type Kind = (typeof KINDS)[number];

/** File name that an input of a kind comes under. */
export const FILE_NAMES: Readonly<Record<Kind, string>> = {
  png: 'a.png',
  jpeg: 'a.jpg',
  webp: 'a.webp',
  tiff: 'a.tif',
  avif: 'a.avif',
  svg: 'a.svg',
  'open raster': 'a.ora',
  pdf: 'a.pdf',
  'outline svg': 'a.svg',
  dxf: 'a.dxf',
  'gpl palette': 'a.gpl',
  'json palette': 'a.json',
  job: 'a.kickflat',
  'deck json': 'a.json',
  ttf: 'a.ttf',
  woff: 'a.woff',
  woff2: 'a.woff2',
};

const utf8 = (text: string) => new TextEncoder().encode(text);
const art = (name: string) => readFile(new URL(`../fixtures/art/${name}`, import.meta.url));
/** Open typefaces that come with the program, in two of the ways fonts are packed. */
const font = (id: string, file: string) =>
  readFile(
    new URL(`../../node_modules/@fontsource/${id}/files/${id}-latin-400-normal.${file}`, import.meta.url),
  );

/** A small picture with flat colours, a ramp and an edge that goes clear. */
function picture(width = 61, height = 43): Sharp {
  const data = Buffer.alloc(width * height * 4);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      data.set([(x * 4) & 255, y < 20 ? 60 : 200, (x ^ y) & 255, x > 50 ? 0 : 255], (y * width + x) * 4);
  return sharp(data, { raw: { width, height, channels: 4 } });
}

const DRAWING = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="210mm" height="60mm" viewBox="0 0 420 120">
<defs><linearGradient id="g"><stop offset="0" stop-color="#f2b632"/><stop offset="1" stop-color="#1b2440"/></linearGradient>
<clipPath id="c"><circle cx="60" cy="60" r="50"/></clipPath><g id="wave"><path d="M0 0q10 -20 20 0t20 0"/></g></defs>
<style>.k{fill:none;stroke:#1b2440;stroke-width:3}</style>
<rect width="420" height="120" rx="20" fill="url(#g)"/><g clip-path="url(#c)" transform="translate(4 2) rotate(3)">
<circle cx="60" cy="60" r="55" fill="#e8613c"/><use xlink:href="#wave" x="20" y="60" class="k"/></g>
<text x="200" y="70" font-size="24">Breakwater &amp; Jam</text><polygon points="300,20 380,30 340,110" opacity=".7" fill="#2f8f83"/></svg>`;

const OUTLINE = `<svg xmlns="http://www.w3.org/2000/svg" width="806mm" height="210mm" viewBox="-403 -105 806 210">
<g transform="translate(0 0)"><path fill="none" stroke="#000" d="M-300 -105H300C360 -105 403 -50 403 0S360 105 300 105H-300C-360 105 -403 50 -403 0S-360 -105 -300 -105Z"/></g>
<circle cx="-220" cy="0" r="2.7"/></svg>`;

/** DXF reference: group code and value on lines of their own; a polyline with two half-round ends (bulge 1). */
const DXF = `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n8\noutline\n90\n4\n70\n1
10\n-300.0\n20\n-105.0\n10\n300.0\n20\n-105.0\n42\n1.0\n10\n300.0\n20\n105.0\n10\n-300.0\n20\n105.0\n42\n1.0
0\nCIRCLE\n8\nholes\n10\n-220.0\n20\n20.6\n40\n2.7\n0\nENDSEC\n0\nEOF\n`;
const DXF_PARTS = `0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n-300\n20\n-100\n11\n300\n21\n-100\n0\nARC\n8\n0\n10\n300\n20\n0\n40\n100\n50\n270\n51\n90
0\nLINE\n8\n0\n10\n300\n20\n100\n11\n-300\n21\n100\n0\nARC\n8\n0\n10\n-300\n20\n0\n40\n100\n50\n90\n51\n270\n0\nENDSEC\n0\nEOF\n`;

const PALETTE = [
  { name: 'Base white', hex: '#ffffff' },
  { name: 'Sun yellow', hex: '#f2b632' },
  { name: 'Coral', hex: '#e8613c' },
  { name: 'Night blue', hex: '#1b2440' },
];

function job(): Uint8Array {
  const deck = deckTemplate('popsicle-8.25');
  if (!deck) throw new Error('The deck is not there.');
  const bytes = utf8(DRAWING);
  const hash = hashOf(bytes);
  const start = newJob({ name: 'Breakwater Jam', deck });
  const bottom = { ...start.faces.bottom, inks: PALETTE.slice(1).map((ink) => inkFrom(ink, [])) };
  const facts = {
    mediaType: 'image/svg+xml',
    widthPx: 420,
    heightPx: 120,
    stated: { width: 210, height: 60 },
    alpha: true,
    vector: true,
    name: 'a.svg',
    hash,
    ground: null,
  } as const;
  const placed = placeArt({ ...start, faces: { ...start.faces, bottom } }, 'bottom', facts as never, {
    fit: 'contain',
    wrap: 'surface',
    artDpi: null,
  });
  if (!placed.ok) throw new Error(placed.reason);
  return packJob({ job: placed.value.job, art: new Map([[hash, bytes]]) });
}

/** Two layers and a stack, its entries as they are stored in practice. */
async function openRaster(): Promise<Uint8Array> {
  const png = async (width: number, height: number) =>
    new Uint8Array(await picture(width, height).png().toBuffer());
  const stack = `<?xml version='1.0' encoding='UTF-8'?>
<image version="0.0.6" w="61" h="43" xres="300" yres="300"><stack>
<layer name="Sketch" src="data/a.png" visibility="hidden"/>
<stack name="Boat"><layer name="hull" src="data/a.png"/><layer name="mast" src="data/b.png" x="20" y="-4"/></stack>
<layer name="Sky" src="data/b.png" x="-3" y="10" opacity="0.5"/></stack></image>`;
  return zipSync({
    mimetype: [utf8('image/openraster'), { level: 0 }],
    'stack.xml': utf8(stack),
    'data/a.png': await png(61, 43),
    'data/b.png': await png(20, 16),
  });
}

/** Sound files of every kind, small, so that a change is likely to land where it matters. */
export async function goodInputs(): Promise<Readonly<Record<Kind, readonly Uint8Array[]>>> {
  const made = (image: Sharp) => image.toBuffer().then((b) => new Uint8Array(b));
  const all = (images: readonly Sharp[]) => Promise.all(images.map(made));
  const stated = () => picture().withMetadata({ density: 300, orientation: 6 });
  const deck = deckTemplate('popsicle-8.25');
  return {
    png: [
      ...(await all([
        picture().png(),
        stated().withIccProfile('p3').png(),
        picture().png({ palette: true }),
        picture().png({ progressive: true }),
        picture().greyscale().toColourspace('grey16').png(),
      ])),
      await art('one-point.png'),
      await art('stripes-close-colours.png'),
    ],
    jpeg: [
      ...(await all([
        picture().jpeg(),
        stated().jpeg({ progressive: true }),
        picture().jpeg({ chromaSubsampling: '4:4:4', quality: 95 }),
        picture().toColourspace('cmyk').jpeg(),
      ])),
      await art('photo-progressive-q40.jpg'),
    ],
    webp: await all([picture().webp(), picture().webp({ lossless: true }), stated().webp({ quality: 40 })]),
    tiff: await all([
      ...(['none', 'lzw', 'deflate', 'packbits', 'jpeg'] as const).map((compression) =>
        picture().tiff({ compression }),
      ),
      picture().tiff({ tile: true, tileWidth: 32, tileHeight: 32, compression: 'lzw' }),
      picture().flatten().toColourspace('b-w').tiff({ bitdepth: 1, compression: 'ccittfax4' }),
      stated().toColourspace('rgb16').tiff({ predictor: 'horizontal', compression: 'lzw' }),
    ]),
    avif: await all([
      picture().avif({ effort: 0 }),
      picture().avif({ lossless: true, effort: 0 }),
      stated().avif({ effort: 0 }),
    ]),
    svg: [
      utf8(DRAWING),
      await art('flat-fish.svg'),
      await art('layers-in-cm.svg'),
      await art('outside-sailboat.svg'),
    ],
    'open raster': [await openRaster()],
    pdf: [await groupsByPdfLib()],
    'outline svg': [utf8(OUTLINE), utf8(OUTLINE.replace('<g transform="translate(0 0)">', '<g>'))],
    dxf: [utf8(DXF), utf8(DXF_PARTS)],
    'gpl palette': [utf8(writeGpl('Breakwater', PALETTE))],
    'json palette': [
      utf8(writePaletteJson('Breakwater', PALETTE)),
      utf8(JSON.stringify(PALETTE.map((c) => c.hex))),
    ],
    job: [job()],
    'deck json': [utf8(JSON.stringify(deck, null, 1))],
    ttf: [sfntOfWoff(await font('anton', 'woff')), sfntOfWoff(await font('pacifico', 'woff'))],
    woff: [await font('anton', 'woff'), await font('archivo-black', 'woff')],
    woff2: [await font('anton', 'woff2'), await font('pacifico', 'woff2')],
  };
}
