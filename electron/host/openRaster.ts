import { strFromU8, type UnzipFileInfo, unzipSync } from 'fflate';
import { SaxesParser } from 'saxes';
import type { ArtLayer } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { artTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { LAYER_LIMITS, layersTooLarge, tooManyLayers } from './layerLimits.ts';
import { pngOfPicture } from './pngFile.ts';

/** OpenRaster's reference document, 0.0.6: a zip with `mimetype`, `stack.xml` and a PNG a layer. */
export const OPEN_RASTER = 'image/openraster';
const LARGEST_STACK = 4 * 1024 * 1024;
/** Dots an inch where the document states none (OpenRaster 0.0.6, “image element”). */
const USUAL_DPI = 72;

interface Node {
  readonly kind: 'stack' | 'layer';
  readonly name: string;
  readonly src: string;
  readonly x: number;
  readonly y: number;
  readonly opacity: number;
  readonly hidden: boolean;
  readonly mode: string;
  readonly inside: Node[];
}
interface Stack {
  readonly width: number;
  readonly height: number;
  /** Stated by the file; 0: not. */
  readonly dpi: number;
  /** Uppermost first. */
  readonly nodes: readonly Node[];
}

const damaged = (name: string, what: string) => artTrouble.openRasterDamaged(name, what);

/** Whether a zip says in its first entry that it is OpenRaster: its name and text stand at fixed places, uncompressed. */
export const isOpenRaster = (bytes: Uint8Array): boolean =>
  strFromU8(bytes.subarray(0, 2), true) === 'PK' &&
  strFromU8(bytes.subarray(30, 54), true) === `mimetype${OPEN_RASTER}`;

function whole(text: string | undefined, otherwise: number): number {
  const n = text === undefined ? otherwise : Number(text);
  return Number.isFinite(n) ? Math.max(-1e6, Math.min(1e6, Math.round(n))) : otherwise;
}

function nodeOf(kind: Node['kind'], a: Readonly<Record<string, string>>): Node {
  const opacity = Number(a['opacity'] ?? 1);
  return {
    kind,
    name: (a['name'] ?? '').trim().slice(0, 120),
    src: a['src'] ?? '',
    x: whole(a['x'], 0),
    y: whole(a['y'], 0),
    opacity: Number.isFinite(opacity) ? Math.min(1, Math.max(0, opacity)) : 1,
    hidden: a['visibility'] === 'hidden',
    mode: a['composite-op'] ?? 'svg:src-over',
    inside: [],
  };
}

function readStack(text: string, name: string): Outcome<Stack> {
  const parser = new SaxesParser();
  let size: { width: number; height: number; dpi: number } | null = null;
  let root: Node | null = null;
  const open: Node[] = [];
  let layers = 0;
  let trouble = '';
  parser.on('error', () => {
    trouble ||= 'its stack.xml is not whole';
  });
  parser.on('doctype', () => {
    trouble ||= 'its stack.xml declares entities of its own';
  });
  parser.on('opentag', ({ name: tag, attributes }) => {
    const a = attributes as Record<string, string>;
    if (tag === 'image')
      size = { width: whole(a['w'], 0), height: whole(a['h'], 0), dpi: whole(a['xres'], 0) };
    if (tag !== 'stack' && tag !== 'layer') return;
    const node = nodeOf(tag, a);
    if (tag === 'layer') layers++;
    open.at(-1)?.inside.push(node);
    root ??= node;
    open.push(node);
    if (open.length > LAYER_LIMITS.deep)
      trouble ||= `its stacks are nested more than ${LAYER_LIMITS.deep} deep`;
  });
  parser.on('closetag', ({ name: tag }) => {
    if (tag === 'stack' || tag === 'layer') open.pop();
  });
  try {
    parser.write(text).close();
  } catch {
    trouble ||= 'its stack.xml is not XML';
  }
  if (trouble) return damaged(name, trouble);
  const found = root as Node | null;
  const canvas = size as { width: number; height: number; dpi: number } | null;
  if (found?.kind !== 'stack' || !canvas) return damaged(name, 'its stack.xml has no stack');
  if (!(canvas.width > 0 && canvas.height > 0)) return damaged(name, 'it states no size');
  if (layers > 4 * LAYER_LIMITS.layers || found.inside.length > LAYER_LIMITS.layers)
    return tooManyLayers(name);
  if (canvas.width * canvas.height > LAYER_LIMITS.points) return layersTooLarge(name);
  return done({ ...canvas, nodes: found.inside });
}

/** Lays `top` at (x, y) over `canvas`, source over, in encoded values as painting programs mix; straight alpha. */
function layOn(canvas: Picture, top: Picture, x: number, y: number, opacity: number): void {
  const { data, width, height } = canvas;
  for (let row = Math.max(0, -y); row < top.height && row + y < height; row++)
    for (let column = Math.max(0, -x); column < top.width && column + x < width; column++) {
      const from = 4 * (row * top.width + column);
      const to = 4 * ((row + y) * width + column + x);
      const alpha = (opacity * (top.data[from + 3] as number)) / 255;
      if (alpha === 0) continue;
      const beneath = ((data[to + 3] as number) / 255) * (1 - alpha);
      const sum = alpha + beneath;
      for (let c = 0; c < 3; c++)
        data[to + c] = Math.round(
          (alpha * (top.data[from + c] as number) + beneath * (data[to + c] as number)) / sum,
        );
      data[to + 3] = Math.round(255 * sum);
    }
}

/**
 * The layers of an OpenRaster picture, undermost first: what stands in its topmost stack, each on the whole canvas; a stack
 * in it is one layer, its visible parts laid over one another. `decode` reads a PNG within the codec's own limits.
 */
export async function openRasterLayers(
  bytes: Uint8Array,
  name: string,
  decode: (png: Uint8Array, name: string) => Promise<Outcome<Picture>>,
): Promise<Outcome<ArtLayer[]>> {
  let entries = 0;
  let unpacked = 0;
  let trouble = '';
  const wanted = (info: UnzipFileInfo): boolean => {
    entries++;
    unpacked += info.originalSize;
    if (entries > LAYER_LIMITS.entries) trouble ||= `it holds more than ${LAYER_LIMITS.entries} files`;
    if (unpacked > LAYER_LIMITS.unpacked)
      trouble ||= `it would unpack to more than ${LAYER_LIMITS.unpacked / 1048576} MB`;
    if (info.name === 'stack.xml' && info.originalSize > LARGEST_STACK)
      trouble ||= 'its stack.xml is too long';
    return trouble === '' && (info.name === 'stack.xml' || info.name.startsWith('data/'));
  };
  let files: Record<string, Uint8Array>;
  try {
    files = unzipSync(bytes, { filter: wanted });
  } catch {
    return damaged(name, trouble || 'its zip is not whole');
  }
  if (trouble) return damaged(name, trouble);
  if (!files['stack.xml']) return damaged(name, 'it has no stack.xml');
  const stack = readStack(strFromU8(files['stack.xml']), name);
  if (!stack.ok) return stack;
  const { width, height, dpi, nodes } = stack.value;
  let points = width * height * nodes.length;

  const lay = async (canvas: Picture, node: Node, opacity: number): Promise<Outcome<null>> => {
    if (node.mode !== 'svg:src-over') return artTrouble.layerBlended(name, node.mode.slice(0, 40));
    if (node.kind === 'stack') {
      for (const part of [...node.inside].reverse())
        if (!part.hidden) {
          const laid = await lay(canvas, part, opacity * part.opacity);
          if (!laid.ok) return laid;
        }
      return done(null);
    }
    const png = Object.hasOwn(files, node.src) ? files[node.src] : undefined;
    if (!png)
      return damaged(name, `the picture of its layer “${node.name || node.src.slice(0, 60)}” is missing`);
    const picture = await decode(png, `${name}, layer ${node.name}`);
    if (!picture.ok) return picture;
    points += picture.value.width * picture.value.height;
    if (points > LAYER_LIMITS.allPoints) return layersTooLarge(name);
    layOn(canvas, picture.value, node.x, node.y, opacity);
    return done(null);
  };

  if (points > LAYER_LIMITS.allPoints) return layersTooLarge(name);
  const layers: ArtLayer[] = [];
  for (const [n, node] of [...nodes].reverse().entries()) {
    const canvas: Picture = { width, height, data: new Uint8Array(width * height * 4) };
    const laid = await lay(canvas, node, node.opacity);
    if (!laid.ok) return laid;
    layers.push({
      name: node.name || `Layer ${n + 1}`,
      bytes: pngOfPicture(canvas, dpi > 0 ? dpi : USUAL_DPI),
      hidden: node.hidden,
      unsized: !(dpi > 0),
    });
  }
  if (layers.length === 0) return artTrouble.noLayers(name);
  return done(layers);
}
