import { deckTemplate } from '../../core/deck/index.ts';
import { hashOf, inkFrom, type Job, newJob, packJob, placeArt } from '../../core/job/index.ts';
import type { ArtLayer, ArtProbe, OpenedJob, PickedFile, Shell } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { EMPTY_SHOP, type Shop } from '../../core/shop/index.ts';
import { badInput, done, type Outcome } from '../../core/units/index.ts';

/** Art of a job made for tests, by face. */
export interface FakeDemo {
  readonly name: string;
  readonly bottom: { readonly name: string; readonly svg: string };
  readonly top: { readonly name: string; readonly svg: string };
  readonly inks: {
    readonly bottom: readonly { name: string; hex: string; role?: 'base' }[];
    readonly top: readonly { name: string; hex: string }[];
  };
  readonly veneers: Job['veneers'];
  readonly colourways: Job['colourways'];
}

/** What a test may look at and steer. */
export interface FakeHost {
  readonly saved: { name: string; bytes: Uint8Array }[];
  readonly exports: { name: string; faces: readonly string[]; cancelled: boolean }[];
  shop: Shop;
  kept: Uint8Array | null;
  /** Why unsaved work can not be kept, where it can not. */
  unkept: string | null;
  /** Milliseconds that decoding art takes at least. */
  decodeMs: number;
  /** Why art can not be decoded, where it can not. */
  undecoded: string | null;
  readonly texts: { name: string; text: string }[];
  picks: PickedFile[];
  /** What any file splits into. */
  layers: ArtLayer[];
}

const mediaOf = (bytes: Uint8Array): ArtProbe['mediaType'] | null => {
  if (bytes[0] === 0x89) return 'image/png';
  if (bytes[0] === 0xff) return 'image/jpeg';
  const head = new TextDecoder().decode(bytes.slice(0, 400));
  if (head.includes('<svg')) return 'image/svg+xml';
  return head.startsWith('RIFF') ? 'image/webp' : null;
};

async function imageOf(bytes: Uint8Array, name: string): Promise<Outcome<HTMLImageElement>> {
  const type = mediaOf(bytes);
  if (!type) return badInput(`“${name}” is not a picture.`, 'Pick an SVG, PNG or JPEG.');
  const url = URL.createObjectURL(new Blob([bytes as BlobPart], { type }));
  const image = new Image();
  image.src = url;
  try {
    await image.decode();
  } catch {
    return badInput(
      `“${name}” can not be read as a picture.`,
      'Save it again from the program that made it.',
    );
  }
  return done(image);
}

/** The studio's program around the page, played by the page's own browser, so that the page runs without a host. */
export function makeFakeShell(demo: FakeDemo): { shell: Shell; host: FakeHost } {
  const host: FakeHost = {
    saved: [],
    exports: [],
    shop: EMPTY_SHOP,
    kept: null,
    unkept: null,
    decodeMs: 0,
    undecoded: null,
    texts: [],
    picks: [],
    layers: [],
  };
  const probeArt = async (bytes: Uint8Array, name: string): Promise<Outcome<ArtProbe>> => {
    const image = await imageOf(bytes, name);
    if (!image.ok) return image;
    const mediaType = mediaOf(bytes)!;
    const vector = mediaType === 'image/svg+xml';
    const { naturalWidth, naturalHeight } = image.value;
    return done({
      mediaType,
      widthPx: naturalWidth,
      heightPx: naturalHeight,
      stated: null,
      alpha: vector || mediaType === 'image/png',
      vector,
    });
  };
  const demoJob = async (): Promise<Outcome<OpenedJob>> => {
    let job = newJob({ name: demo.name, deck: deckTemplate('popsicle-8.25')! });
    job = { ...job, shop: 'Tidewater Print Room', veneers: demo.veneers, colourways: demo.colourways };
    const art = new Map<string, Uint8Array>();
    for (const face of ['bottom', 'top'] as const) {
      const bytes = new TextEncoder().encode(demo[face].svg);
      const hash = hashOf(bytes);
      art.set(hash, bytes);
      const probe = await probeArt(bytes, demo[face].name);
      if (!probe.ok) return probe;
      const facts = {
        name: demo[face].name,
        hash,
        ground: null,
        stated: null,
        mediaType: probe.value.mediaType,
        widthPx: probe.value.widthPx as number,
        heightPx: probe.value.heightPx as number,
      };
      const placed = placeArt(job, face, facts, {
        fit: face === 'bottom' ? 'cover' : 'contain',
        wrap: 'surface',
        artDpi: null,
      });
      if (!placed.ok) return placed;
      const inks = demo.inks[face].reduce<Job['faces']['bottom']['inks']>(
        (list, ink) => [...list, inkFrom({ ...ink, needsBase: 'all' }, list)],
        [],
      );
      job = {
        ...placed.value.job,
        faces: { ...placed.value.job.faces, [face]: { ...placed.value.job.faces[face], inks } },
      };
    }
    return done({ bytes: packJob({ job, art }), name: 'night-heron.kickflat', handle: null });
  };
  const shell: Shell = {
    info: async () => ({
      host: 'browser',
      version: 'test',
      recent: [],
      opened: null,
      recovered: host.kept ? { bytes: host.kept, name: 'kept.kickflat', handle: null } : null,
    }),
    openJob: async () => {
      const last = host.saved.at(-1);
      return last ? done({ ...last, handle: 'test' }) : badInput('No job was saved.', 'Save one first.');
    },
    openRecent: async () => badInput('There are no recent jobs.', 'Open a file.'),
    openDemo: demoJob,
    saveJob: async (bytes, name) => {
      host.saved.push({ name, bytes });
      return done({ name, handle: 'test' });
    },
    pickArt: async () => done(host.picks),
    probeArt,
    splitArt: async () => done(host.layers),
    decodeArt: async (bytes, name, maxSidePx): Promise<Outcome<Picture>> => {
      await new Promise((shown) => setTimeout(shown, host.decodeMs));
      if (host.undecoded !== null) return badInput(host.undecoded, 'Save it again.');
      const image = await imageOf(bytes, name);
      if (!image.ok) return image;
      const { naturalWidth: w, naturalHeight: h } = image.value;
      const vector = mediaOf(bytes) === 'image/svg+xml';
      const scale = vector
        ? (maxSidePx as number) / Math.max(w, h)
        : Math.min(1, (maxSidePx as number) / Math.max(w, h));
      const canvas = document.createElement('canvas');
      canvas.width = Math.max(1, Math.round(w * scale));
      canvas.height = Math.max(1, Math.round(h * scale));
      const ctx = canvas.getContext('2d')!;
      ctx.drawImage(image.value, 0, 0, canvas.width, canvas.height);
      return done({
        width: canvas.width,
        height: canvas.height,
        data: ctx.getImageData(0, 0, canvas.width, canvas.height).data,
      });
    },
    exportFilms: (request, onProgress) => {
      const record = { name: request.name, faces: request.faces, cancelled: false };
      host.exports.push(record);
      let stop = () => {};
      const finished = new Promise<Awaited<ReturnType<Shell['exportFilms']>['finished']>>((resolve) => {
        let n = 0;
        const timer = setInterval(() => {
          n++;
          onProgress(n / 20, `film ${Math.ceil(n / 4)} of 5`);
          if (n < 20) return;
          clearInterval(timer);
          resolve(
            done({
              folder: null,
              made: null,
              files: [
                { name: 'films.pdf', bytes: 1_200_000 },
                { name: 'films.json', bytes: 9000 },
              ],
            }),
          );
        }, 60);
        stop = () => {
          clearInterval(timer);
          record.cancelled = true;
          resolve({
            ok: false,
            kind: 'cancelled',
            reason: 'Stopped before it was finished.',
            mend: 'Start it again when you like.',
          });
        };
      });
      return { finished, cancel: () => stop() };
    },
    measureFilms: () => ({
      finished: Promise.resolve(badInput('Films are not measured in this test.', 'Use the real program.')),
      cancel: () => {},
    }),
    shop: async () => done(host.shop),
    keepShop: async (shop) => {
      host.shop = shop;
      return done(undefined);
    },
    saveText: async (text, name) => {
      host.texts.push({ name, text });
      return done(null);
    },
    showMade: async () => badInput('There is no folder here.', 'Look where your browser keeps downloads.'),
    dragOut: () => undefined,
    autosave: async (bytes) => {
      if (host.unkept !== null && bytes !== null)
        return badInput(host.unkept, 'Free some space or choose another disk.');
      host.kept = bytes;
      return done(null);
    },
  };
  return { shell, host };
}
