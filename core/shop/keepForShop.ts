import type { Face } from '../deck/index.ts';
import type { Job, Printer } from '../job/index.ts';
import { HABITS } from './runHabits.ts';
import { shelfInk } from './shelf.ts';
import type { Shop } from './shop.ts';
import { sameName } from './shopInk.ts';

/** The list with `item` first; whatever had its name is replaced, and keeps what the new one does not state. */
function firstOf<T extends { readonly name: string }>(list: readonly T[], item: T): T[] {
  const before = list.find((one) => sameName(one.name, item.name));
  return [{ ...before, ...item }, ...list.filter((one) => !sameName(one.name, item.name))];
}

/**
 * The list with `printer` first, in place of what had its name: whole, since its scale, lean and shrink were measured
 * together. The shop's list holds 50.
 */
export const withPrinterFirst = (list: readonly Printer[], printer: Printer): Printer[] =>
  [printer, ...list.filter((one) => !sameName(one.name, printer.name))].slice(0, 50);

/** Are two printers alike in all they state? A key left out and one that is undefined are the same. */
export function samePrinter(a: Printer, b: Printer): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...keys].every((key) => a[key] === b[key]);
}

/** An object without the keys that are undefined. */
const stated = <T extends object>(from: T): T =>
  Object.fromEntries(Object.entries(from).filter(([, value]) => value !== undefined)) as T;

/**
 * The shop with the job's figures kept for the next job: its meshes, inks with their use and prices, lamp, emulsion, frame,
 * printer, and how its run was planned. What the shop has beside them stays; what the job does not state is not forgotten.
 */
export function keepForShop(shop: Shop, job: Job): Shop {
  const { press } = job;
  const meshes = [
    ...(press.ownMeshes ?? []),
    ...shop.meshes.filter(
      (mesh) =>
        !press.ownMeshes?.some((m) => m.countPerCm === mesh.countPerCm && m.threadUm === mesh.threadUm),
    ),
  ];
  let { inks } = shop;
  for (const face of ['bottom', 'top'] as const satisfies readonly Face[])
    for (const ink of job.faces[face].inks) {
      const { passes, density, potMl, price } = press.inkUse?.[`${face} ${ink.id}`] ?? {};
      inks = firstOf(inks, stated({ ...shelfInk(ink), passes, density, potMl, price }));
    }
  const { lamp, distance, time, targetStep } = press.exposure ?? {};
  const { name, coats, wetUm, waste } = press.emulsion ?? {};
  const { frameWidth: width, frameLength: length, frameBar: bar, frames: count } = press;
  const named = `${width} × ${length} mm`;
  const frame =
    width >= 1 && length >= 1 ? shop.frames.find((f) => f.width === width && f.length === length) : null;
  return {
    ...shop,
    meshes: meshes.slice(0, 100),
    inks: inks.slice(0, 500),
    lamps: lamp ? firstOf(shop.lamps, stated({ name: lamp, distance, time })) : shop.lamps,
    emulsions: name
      ? firstOf(shop.emulsions, stated({ name, coats, wetUm, waste, targetStep }))
      : shop.emulsions,
    frames:
      frame === null
        ? shop.frames
        : firstOf(shop.frames, stated({ name: frame?.name ?? named, width, length, bar, count })),
    printers: job.printer.name === '' ? shop.printers : withPrinterFirst(shop.printers, job.printer),
    habits: {
      ...shop.habits,
      ...Object.fromEntries(HABITS.flatMap((key) => (press[key] === undefined ? [] : [[key, press[key]]]))),
    },
  };
}
