import { randomBytes } from 'node:crypto';
import { basename, extname, resolve } from 'node:path';
import { packJob } from '../core/job/index.ts';
import { makeCalibration } from '../core/makeCalibration.ts';
import { makeFilms } from '../core/makeFilms.ts';
import { makePress } from '../core/makePress.ts';
import { measureFilms } from '../core/measureFilms.ts';
import type {
  ArtLayer,
  ArtProbe,
  ExportRequest,
  FileStore,
  ImageCodec,
  OpenedJob,
  SavedJob,
  ShellInfo,
  Workers,
} from '../core/ports/index.ts';
import type { FilmMeasure } from '../core/press/index.ts';
import type { Picture } from '../core/raster/index.ts';
import { deflate } from '../core/raster/index.ts';
import { studioTrouble } from '../core/sentences/index.ts';
import type { Shop } from '../core/shop/index.ts';
import { type Abort, cancelled, done, type Outcome, type Progress } from '../core/units/index.ts';
import { demoJob } from './demoJob.ts';
import {
  type JobLock,
  jobVersions,
  lockJob,
  MOST_JOB_BYTES,
  recentJobs,
  Stopped,
  shopFile,
  TRIAL_SIDE,
  unpackJobFile,
  unsavedWork,
  writeJobFile,
} from './host/index.ts';

/** What the shell's two hosts, Electron and the browser's, have in common. Paths stay here; the page gets handles. */
export interface ShellHost {
  /** `tab` tells the pages of one host apart, where there are several; the same page loaded again has the same. */
  info(host: ShellInfo['host'], tab?: string): Promise<ShellInfo>;
  openPath(path: string, tab?: string): Promise<Outcome<OpenedJob>>;
  openRecent(handle: string, tab?: string): Promise<Outcome<OpenedJob>>;
  openDemo(): Promise<Outcome<OpenedJob>>;
  /** Saves to the file behind a handle, unless somebody else did since this page opened or saved it. */
  saveHandle(bytes: Uint8Array, handle: string, tab?: string): Promise<Outcome<SavedJob>>;
  /** Saves to a path the user chose in a dialog. */
  savePath(bytes: Uint8Array, path: string): Promise<Outcome<SavedJob>>;
  probeArt(bytes: Uint8Array, name: string): Promise<Outcome<ArtProbe>>;
  splitArt(bytes: Uint8Array, name: string): Promise<Outcome<readonly ArtLayer[]>>;
  decodeArt(bytes: Uint8Array, name: string, maxSidePx: number): Promise<Outcome<Picture>>;
  films(
    request: ExportRequest,
    progress: Progress,
    abort: Abort,
  ): Promise<Outcome<ReadonlyMap<string, Uint8Array>>>;
  measure(job: Uint8Array, progress: Progress, abort: Abort): Promise<Outcome<readonly FilmMeasure[]>>;
  shop(): Promise<Outcome<Shop>>;
  keepShop(shop: Shop): Promise<Outcome<void>>;
  autosave(bytes: Uint8Array | null, name: string, tab?: string): Promise<Outcome<null>>;
  close(): Promise<void>;
}

export interface ShellHostParts {
  readonly files: FileStore;
  readonly codec: ImageCodec;
  readonly workers: () => Workers;
  readonly state: string;
  readonly demo: string;
  readonly version: string;
  readonly now: () => number;
  /** A job named on the command line or by a double click. */
  readonly given: string | null;
  /** Told the path of every job that was opened or saved. */
  readonly opened?: (path: string) => void;
}

/** Work that a stop ends wherever it is: the threads' own way of stopping is no bug. */
async function stoppable<T>(abort: Abort, work: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Stopped || abort.aborted) return cancelled();
    throw error;
  }
}

type Tools = Omit<Parameters<typeof makeFilms>[0], 'faces' | 'deflate' | 'masks' | 'composite'> & {
  readonly abort: Abort;
};

const nameOf = (path: string) => basename(path, extname(path));

export function shellHost(parts: ShellHostParts): ShellHost {
  const { files, codec } = parts;
  const paths = new Map<string, string>();
  const locks = new Map<string, JobLock>();
  const versions = jobVersions(files);
  const recent = recentJobs(parts.state);
  const shop = shopFile(parts.state);
  const unsaved = new Map<string, ReturnType<typeof unsavedWork>>();

  /** Pages of one host never write over each other's unsaved work. */
  function unsavedOf(tab: string) {
    const known = unsaved.get(tab) ?? unsavedWork(parts.state);
    unsaved.set(tab, known);
    return known;
  }

  function handleFor(path: string): string {
    for (const [handle, known] of paths) if (known === path) return handle;
    const handle = randomBytes(12).toString('hex');
    paths.set(handle, path);
    return handle;
  }

  function touch(path: string): Promise<void> {
    parts.opened?.(path);
    return recent.add(path, new Date(parts.now()).toISOString());
  }

  /** One lock a path for as long as this host lives: another program then says so instead of overwriting. */
  async function hold(path: string): Promise<Outcome<void>> {
    if (locks.has(path)) return done(undefined);
    const lock = await lockJob(path);
    if (!lock.ok) return lock;
    locks.set(path, lock.value);
    return done(undefined);
  }

  async function openPath(given: string, tab = ''): Promise<Outcome<OpenedJob>> {
    const path = resolve(given);
    const bytes = await files.read(path, MOST_JOB_BYTES);
    if (!bytes.ok) return bytes;
    const job = unpackJobFile(bytes.value);
    if (!job.ok) return { ...job, reason: `“${basename(path)}”: ${job.reason}` };
    versions.note(tab, path, bytes.value);
    await touch(path);
    return done({ bytes: bytes.value, name: nameOf(path), handle: handleFor(path) });
  }

  async function save(
    bytes: Uint8Array,
    given: string,
    tab: string,
    chosen: boolean,
  ): Promise<Outcome<SavedJob>> {
    const path = resolve(given);
    // What can not be opened again is not saved over what can.
    const job = unpackJobFile(bytes);
    if (!job.ok) return job;
    const held = await hold(path);
    if (!held.ok) return held;
    const write = () => writeJobFile(files, path, bytes);
    const written = await versions.save(tab, path, bytes, chosen, write);
    if (!written.ok) return written;
    await touch(path);
    return done({ name: nameOf(path), handle: handleFor(path) });
  }

  async function filmsOf({ faces: asked, masks }: ExportRequest, tools: Tools) {
    const faces = asked.filter((face) => tools.job.faces[face].art.length > 0);
    if (faces.length === 0) return studioTrouble.noArtOnFaces();
    return stoppable(tools.abort, () => makeFilms({ ...tools, faces, deflate, masks, composite: false }));
  }

  const gone = () => studioTrouble.jobForgotten();

  return {
    openPath,
    savePath: (bytes, path) => save(bytes, path, '', true),
    async info(host, tab = '') {
      const listed = await recent.list();
      const opened = parts.given === null ? null : await openPath(parts.given, tab);
      const recovered = await unsavedOf(tab).recover();
      return {
        host,
        version: parts.version,
        recent: listed.map(({ path, when }) => ({ handle: handleFor(path), name: nameOf(path), when })),
        // A crash took newer work on this very job: the page then offers that first, and the file among the recent ones.
        opened:
          opened?.ok && !(recovered?.found && recovered.name === opened.value.name) ? opened.value : null,
        recovered: recovered ? { name: recovered.name, bytes: recovered.bytes, handle: null } : null,
      };
    },
    async openRecent(handle, tab) {
      const path = paths.get(handle);
      return path === undefined ? gone() : openPath(path, tab);
    },
    async openDemo() {
      const file = await demoJob(parts.demo, files, codec);
      return file.ok ? done({ bytes: packJob(file.value), name: file.value.job.name, handle: null }) : file;
    },
    async saveHandle(bytes, handle, tab = '') {
      const path = paths.get(handle);
      return path === undefined ? gone() : save(bytes, path, tab, false);
    },
    probeArt: (bytes, name) => codec.probe(bytes, name),
    splitArt: (bytes, name) => codec.layers(bytes, name),
    async decodeArt(bytes, name, maxSidePx) {
      const probe = await codec.probe(bytes, name);
      if (!probe.ok) return probe;
      const { vector, widthPx, heightPx } = probe.value;
      if (!vector) return codec.decode(bytes, name, maxSidePx);
      const k = maxSidePx / Math.max(widthPx, heightPx);
      return codec.rasterise(bytes, name, {
        x: 0,
        y: 0,
        width: widthPx,
        height: heightPx,
        outWidth: Math.max(1, Math.round(widthPx * k)),
        outHeight: Math.max(1, Math.round(heightPx * k)),
        // The trial of a drawing has this size; finer pictures are for looking closely, and wait longer.
        look: maxSidePx <= TRIAL_SIDE,
      });
    },
    async films(request, progress, abort) {
      const file = unpackJobFile(request.job);
      if (!file.ok) return file;
      const { job, art } = file.value;
      const tools = { job, art, codec, workers: parts.workers(), progress, abort };
      const made =
        request.what === 'calibration'
          ? await makeCalibration({ job, deflate })
          : request.what === 'press'
            ? await stoppable(abort, () => makePress({ ...tools, deflate }))
            : await filmsOf(request, tools);
      return made.ok ? done(made.value.files) : made;
    },
    async measure(bytes, progress, abort) {
      const file = unpackJobFile(bytes);
      if (!file.ok) return file;
      const { job, art } = file.value;
      return stoppable(abort, () =>
        measureFilms({ job, art, codec, workers: parts.workers(), progress, abort }),
      );
    },
    shop: () => shop.read(),
    keepShop: (next) => shop.keep(next),
    autosave: (bytes, name, tab = '') => unsavedOf(tab).keep(bytes, name),
    async close() {
      for (const lock of locks.values()) await lock.release();
      locks.clear();
    },
  };
}
