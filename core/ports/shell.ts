import type { Face } from '../deck/index.ts';
import type { FilmMeasure } from '../press/index.ts';
import type { Picture } from '../raster/index.ts';
import type { Shop } from '../shop/index.ts';
import type { Outcome, Px } from '../units/index.ts';
import type { ArtLayer } from './artLayers.ts';
import type { ArtProbe } from './imageCodec.ts';

/** A job file as opened: its bytes and an opaque handle that a later save may name. Paths never reach the page. */
export interface OpenedJob {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly handle: string | null;
}
export interface SavedJob {
  readonly name: string;
  readonly handle: string | null;
}
export interface PickedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}
export interface RecentJob {
  readonly handle: string;
  readonly name: string;
  /** ISO date, for show. */
  readonly when: string;
}
export interface ExportRequest {
  readonly job: Uint8Array;
  readonly name: string;
  readonly faces: readonly Face[];
  readonly masks: boolean;
  /**
   * The films; what the press needs: run sheet, jig, squeegee, calibration, step test; or the calibration sheet alone. Left
   * out: the films.
   */
  readonly what?: 'films' | 'press' | 'calibration' | undefined;
}
export interface ExportedFiles {
  /** Folder name as the user knows it (Electron), or null when the files come as a download (browser). */
  readonly folder: string | null;
  readonly files: readonly { readonly name: string; readonly bytes: number }[];
  /** What `showMade` and `dragOut` know the folder by; null where the files came as a download. */
  readonly made: string | null;
}
export interface ShellInfo {
  readonly host: 'electron' | 'browser';
  readonly version: string;
  readonly recent: readonly RecentJob[];
  /** The job named on the command line or by a double click, if any. */
  readonly opened: OpenedJob | null;
  /** Unsaved work of this same page before it was loaded again, or found after a crash, if any. */
  readonly recovered: OpenedJob | null;
}

/** Work that goes on for a while: how far it is comes through a callback. */
export interface LongWork<T> {
  readonly finished: Promise<Outcome<T>>;
  cancel(): void;
}

/**
 * The one contract between the studio's page and the program around it. `electron/preload.ts` exposes it in Electron,
 * `electron/webShell.ts` in a browser; both as `window.shell`. Every argument is checked again on the other side.
 */
export interface Shell {
  info(): Promise<ShellInfo>;
  /** Asks the user for a job file. `cancelled` when they change their mind. */
  openJob(): Promise<Outcome<OpenedJob>>;
  openRecent(handle: string): Promise<Outcome<OpenedJob>>;
  /** The demonstration job that comes with the program. */
  openDemo(): Promise<Outcome<OpenedJob>>;
  /** Writes to `handle`, or asks where when it is null. Refused when somebody else saved there since it was opened here. */
  saveJob(bytes: Uint8Array, name: string, handle: string | null): Promise<Outcome<SavedJob>>;
  /** Asks the user for pictures. */
  pickArt(): Promise<Outcome<readonly PickedFile[]>>;
  probeArt(bytes: Uint8Array, name: string): Promise<Outcome<ArtProbe>>;
  /** The layers a file was prepared in, see `ImageCodec.layers`. */
  splitArt(bytes: Uint8Array, name: string): Promise<Outcome<readonly ArtLayer[]>>;
  /** Art as pixels, its longer side at most `maxSidePx`; SVG is drawn at just that size. */
  decodeArt(bytes: Uint8Array, name: string, maxSidePx: Px): Promise<Outcome<Picture>>;
  /** Films of the given faces, or the press sheets. `onProgress` gets 0 to 1 and a sentence in the work's own units. */
  exportFilms(
    request: ExportRequest,
    onProgress: (done: number, text: string) => void,
  ): LongWork<ExportedFiles>;
  /** Every film of a job measured at its own resolution. */
  measureFilms(
    job: Uint8Array,
    onProgress: (done: number, text: string) => void,
  ): LongWork<readonly FilmMeasure[]>;
  /** Shows a folder of made files in the system's own file window. */
  showMade(made: string): Promise<Outcome<null>>;
  /** Takes the drag of a made file over from the page, so that it can be let go in any other program. */
  dragOut(made: string, name: string): void;
  /** What this shop has and how it works, kept apart from every job. */
  shop(): Promise<Outcome<Shop>>;
  keepShop(shop: Shop): Promise<Outcome<void>>;
  /** Writes a small text file where the user says; its name ends in what kind of file it is. */
  saveText(text: string, name: string): Promise<Outcome<null>>;
  /** Keeps unsaved work for after a crash; null forgets it. */
  autosave(bytes: Uint8Array | null, name: string): Promise<Outcome<null>>;
}
