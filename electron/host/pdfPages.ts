import { LAYER_LIMITS } from './layerLimits.ts';
import { pictureLibrary } from './pictureLibrary.ts';

/** A layer of a PDF, drawn: a PNG that states its dots an inch. */
export interface PdfLayer {
  readonly name: string;
  readonly hidden: boolean;
  readonly png: Uint8Array;
}
/** What became of a PDF: its layers, or why it was refused, in words with a mend. */
export type PdfRead =
  | { readonly layers: readonly PdfLayer[] }
  | { readonly reason: string; readonly mend: string };
export interface PdfAsked {
  readonly pdf: Uint8Array;
  readonly name: string;
  /** Dots an inch to draw at; less where a page is very large. */
  readonly dpi: number;
}

/** Points of a page that are drawn at a time. */
const BAND_POINTS = 12_000_000;
/** Points a page is drawn with, at most: letter size and A4 at 600 dpi; larger pages get fewer dots an inch. */
const PAGE_POINTS = 36_000_000;
const POINTS_AN_INCH = 72;

/** Bound lazily: the library is large, and most art is no PDF. The worker's part runs in this very process. */
async function library() {
  // @ts-expect-error: the worker's part comes without types, and only the library itself looks into it.
  const worker = await import('pdfjs-dist/legacy/build/pdf.worker.mjs');
  (globalThis as { pdfjsWorker?: unknown }).pdfjsWorker = worker;
  return import('pdfjs-dist/legacy/build/pdf.mjs');
}
type Library = Awaited<ReturnType<typeof library>>;
type Page = Awaited<ReturnType<Awaited<ReturnType<Library['getDocument']>['promise']>['getPage']>>;

/** For each operation of a page whether it paints outside every optional group; and whether any does. */
async function outsideGroups(page: Page, { OPS }: Library): Promise<{ outside: Uint8Array; any: boolean }> {
  const { fnArray, argsArray } = await page.getOperatorList({ intent: 'display' });
  const paints = new Set<number>([
    OPS.stroke,
    OPS.closeStroke,
    OPS.fill,
    OPS.eoFill,
    OPS.fillStroke,
    OPS.eoFillStroke,
    OPS.closeFillStroke,
    OPS.closeEOFillStroke,
    OPS.shadingFill,
    OPS.showText,
    OPS.showSpacedText,
    OPS.nextLineShowText,
    OPS.nextLineSetSpacingShowText,
    OPS.paintImageXObject,
    OPS.paintInlineImageXObject,
    OPS.paintInlineImageXObjectGroup,
    OPS.paintImageXObjectRepeat,
    OPS.paintImageMaskXObject,
    OPS.paintImageMaskXObjectGroup,
    OPS.paintImageMaskXObjectRepeat,
    OPS.paintSolidColorImageMask,
    OPS.rawFillPath,
  ]);
  const outside = new Uint8Array(fnArray.length);
  const marks: boolean[] = [];
  let depth = 0;
  let any = false;
  for (let i = 0; i < fnArray.length; i++) {
    const fn = fnArray[i] as number;
    if (fn === OPS.beginMarkedContentProps || fn === OPS.beginMarkedContent) {
      const group = fn === OPS.beginMarkedContentProps && argsArray[i]?.[0] === 'OC';
      marks.push(group);
      if (group) depth++;
    } else if (fn === OPS.endMarkedContent) {
      if (marks.pop()) depth--;
    } else if (depth === 0) {
      const paint = fn === OPS.constructPath ? (argsArray[i]?.[0] as number) : fn;
      if (paints.has(paint)) {
        outside[i] = 1;
        any = true;
      }
    }
  }
  return { outside, any };
}

interface Drawn {
  readonly name: string;
  readonly hidden: boolean;
  readonly page: Page;
  /** The one group to show; null: what is in no group; undefined: all, as the file shows it. */
  readonly group?: string | null;
}

/** Longest side of the trial, points. */
const TRIAL_SIDE = 600;

/**
 * The layers of a PDF: its pages where it has several, else the optional content groups of its only page. All are drawn in small first; then
 * `goingOn` is told.
 */
export async function readPdf(asked: PdfAsked, goingOn: () => void = () => {}): Promise<PdfRead> {
  const lib = await library();
  const { pdf, name } = asked;
  const task = lib.getDocument({
    data: Uint8Array.from(pdf),
    isEvalSupported: false,
    useSystemFonts: false,
    disableFontFace: true,
    enableXfa: false,
    stopAtErrors: false,
    maxImageSize: LAYER_LIMITS.points,
    verbosity: 0,
  });
  try {
    const doc = await task.promise;
    if (doc.numPages > LAYER_LIMITS.pages)
      return {
        reason: `“${name}” has ${doc.numPages} pages, more than the ${LAYER_LIMITS.pages} Kickflat takes as layers.`,
        mend: 'Save the pages you print, one an ink, as a PDF of their own.',
      };
    const pages: Page[] = [];
    for (let n = 1; n <= doc.numPages; n++) pages.push(await doc.getPage(n));
    const first = pages[0] as Page;
    const size = first.getViewport({ scale: 1 });
    if (!(size.width >= 1 && size.height >= 1))
      return {
        reason: `The page of “${name}” has no size.`,
        mend: 'Save it again with a page as large as the art.',
      };
    for (const page of pages) {
      const own = page.getViewport({ scale: 1 });
      if (Math.abs(own.width - size.width) > 1 || Math.abs(own.height - size.height) > 1)
        return {
          reason: `The pages of “${name}” differ in size, so that they would not lie on one another.`,
          mend: 'Give every page the same size, or hand them over as separate files.',
        };
    }
    const config = await doc.getOptionalContentConfig({ intent: 'display' });
    const groups = [...(config as unknown as Iterable<[string, { name: string | null; visible: boolean }]>)];
    const wanted: Drawn[] = [];
    let outside: Uint8Array | null = null;
    if (pages.length > 1 || groups.length === 0)
      pages.forEach((page, n) => {
        wanted.push({ name: pages.length > 1 ? `Page ${n + 1}` : name, hidden: false, page });
      });
    else {
      const found = await outsideGroups(first, lib);
      outside = found.outside;
      if (found.any) wanted.push({ name: 'In no layer', hidden: false, page: first, group: null });
      for (const [id, group] of groups)
        wanted.push({
          name: (group.name ?? '').trim().slice(0, 120) || `Layer ${wanted.length + 1}`,
          hidden: !group.visible,
          page: first,
          group: id,
        });
    }
    if (wanted.length > LAYER_LIMITS.layers)
      return {
        reason: `“${name}” has more than ${LAYER_LIMITS.layers} layers.`,
        mend: 'Merge the layers of one ink in your editor, and remove those that do not print.',
      };
    const dpi = Math.min(asked.dpi, POINTS_AN_INCH * Math.sqrt(PAGE_POINTS / (size.width * size.height)));
    const small = (TRIAL_SIDE * POINTS_AN_INCH) / Math.max(size.width, size.height);
    for (const each of wanted) await draw(doc, each, Math.min(dpi, small), outside);
    goingOn();
    const layers: PdfLayer[] = [];
    for (const each of wanted)
      layers.push({ name: each.name, hidden: each.hidden, png: await draw(doc, each, dpi, outside) });
    return { layers };
  } catch (error) {
    const locked = error instanceof Error && error.name === 'PasswordException';
    return locked
      ? { reason: `The PDF “${name}” is locked with a password.`, mend: 'Save it without a password.' }
      : {
          reason: `The PDF “${name}” is damaged or can not be drawn.`,
          mend: 'Save it again from your editor, or export each layer as a PNG.',
        };
  } finally {
    await task.destroy().catch(() => undefined);
  }
}

async function draw(
  doc: Awaited<ReturnType<Library['getDocument']>['promise']>,
  { page, group }: Drawn,
  dpi: number,
  outside: Uint8Array | null,
): Promise<Uint8Array> {
  const { createCanvas } = await import('@napi-rs/canvas');
  const viewport = page.getViewport({ scale: dpi / POINTS_AN_INCH });
  const width = Math.max(1, Math.round(viewport.width));
  const height = Math.max(1, Math.round(viewport.height));
  const pixels = Buffer.alloc(width * height * 4);
  const rows = Math.max(1, Math.floor(BAND_POINTS / width));
  const config = await doc.getOptionalContentConfig({ intent: 'display' });
  if (group !== undefined)
    for (const [id] of config as unknown as Iterable<[string, unknown]>)
      config.setVisibility(id, id === group);
  for (let top = 0; top < height; top += rows) {
    const high = Math.min(rows, height - top);
    const canvas = createCanvas(width, high);
    const filter = group === undefined || group === null || !outside ? null : outside;
    await page.render({
      canvas: canvas as never,
      viewport,
      intent: 'display',
      transform: [1, 0, 0, 1, 0, -top],
      // Paper is not drawn: what nothing covers is bare.
      background: 'rgba(0,0,0,0)',
      annotationMode: 0,
      optionalContentConfigPromise: Promise.resolve(config),
      ...(filter ? { operationsFilter: (i: number) => filter[i] !== 1 } : {}),
    }).promise;
    const { data } = canvas.getContext('2d').getImageData(0, 0, width, high);
    pixels.set(data, top * width * 4);
  }
  const sharp = await pictureLibrary();
  return sharp(pixels, { raw: { width, height, channels: 4 } })
    .withMetadata({ density: dpi })
    .png({ compressionLevel: 4 })
    .toBuffer();
}
