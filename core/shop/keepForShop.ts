import type { Face } from '../deck/index.ts';
import type { Job } from '../job/index.ts';
import { HABITS } from './runHabits.ts';
import { shelfInk } from './shelf.ts';
import type { Shop } from './shop.ts';
import { sameName } from './shopInk.ts';

/** The list with `item` first; whatever had its name is replaced, and keeps what the new one does not state. */
export function firstOf<T extends { readonly name: string }>(list: readonly T[], item: T): T[] {
  const before = list.find((one) => sameName(one.name, item.name));
  return [{ ...before, ...item }, ...list.filter((one) => !sameName(one.name, item.name))];
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
    printers: job.printer.name === '' ? shop.printers : firstOf(shop.printers, job.printer),
    habits: {
      ...shop.habits,
      ...Object.fromEntries(HABITS.flatMap((key) => (press[key] === undefined ? [] : [[key, press[key]]]))),
    },
  };
}
