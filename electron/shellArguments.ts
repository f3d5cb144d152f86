import * as z from 'zod';
import { ShopSchema } from '../core/shop/index.ts';

/** Bytes from the page, at most `most`. */
const bytes = (most: number) =>
  z.custom<Uint8Array>((v) => v instanceof Uint8Array && v.length <= most, `expected at most ${most} bytes`);
const MB = 1024 * 1024;
const name = z.string().max(400);
/** Which page of a host with several is speaking. */
const tab = z.string().regex(/^[0-9a-f]{1,32}$/);
const handle = z.string().regex(/^[0-9a-f]{24}$/);

/**
 * What each message from the page may hold: the page is only as trustworthy as the art it shows, so every argument is
 * checked again on this side, in Electron and in the browser host alike.
 */
export const SHELL_ARGUMENTS = {
  info: z.tuple([tab.optional()]),
  openJob: z.tuple([]),
  openRecent: z.tuple([handle, tab.optional()]),
  openDemo: z.tuple([]),
  saveJob: z.tuple([bytes(512 * MB), name, handle.nullable(), tab.optional()]),
  pickArt: z.tuple([]),
  probeArt: z.tuple([bytes(100 * MB), name]),
  splitArt: z.tuple([bytes(100 * MB), name]),
  decodeArt: z.tuple([bytes(100 * MB), name, z.number().int().min(1).max(8192)]),
  exportFilms: z.tuple([
    z.object({
      job: bytes(512 * MB),
      name,
      faces: z
        .array(z.enum(['bottom', 'top']))
        .min(1)
        .max(2),
      masks: z.boolean(),
      what: z.enum(['films', 'press', 'calibration']).optional(),
    }),
  ]),
  measureFilms: z.tuple([bytes(512 * MB)]),
  showMade: z.tuple([handle]),
  dragOut: z.tuple([handle, name]),
  shop: z.tuple([]),
  keepShop: z.tuple([ShopSchema]),
  saveText: z.tuple([z.string().max(MB), name]),
  autosave: z.tuple([bytes(512 * MB).nullable(), name, tab.optional()]),
} as const;
export type ShellMethod = keyof typeof SHELL_ARGUMENTS;

/** Most bytes a message of each method may have on the wire, its text included. */
export const MOST_MESSAGE: Readonly<Record<ShellMethod, number>> = {
  info: MB,
  openJob: MB,
  openRecent: MB,
  openDemo: MB,
  pickArt: MB,
  saveJob: 513 * MB,
  probeArt: 101 * MB,
  splitArt: 101 * MB,
  decodeArt: 101 * MB,
  exportFilms: 513 * MB,
  measureFilms: 513 * MB,
  showMade: MB,
  dragOut: MB,
  shop: MB,
  keepShop: 4 * MB,
  saveText: 4 * MB,
  autosave: 513 * MB,
};
