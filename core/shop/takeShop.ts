import type { Face } from '../deck/index.ts';
import type { Job, Press } from '../job/index.ts';
import { HABITS } from './runHabits.ts';
import type { Shop } from './shop.ts';
import { type ShopInk, sameName } from './shopInk.ts';

type InkUse = NonNullable<Press['inkUse']>[string];

/** How a shop's ink is used, without what does not belong in a job. */
function figuresOf({ passes, density, potMl, price }: ShopInk): InkUse {
  return {
    ...(passes === undefined ? {} : { passes }),
    ...(density === undefined ? {} : { density }),
    ...(potMl === undefined ? {} : { potMl }),
    ...(price === undefined ? {} : { price }),
  };
}

function inkUseWith(job: Job, shop: Shop): Press['inkUse'] {
  const uses: Record<string, InkUse> = { ...job.press.inkUse };
  for (const face of ['bottom', 'top'] as const satisfies readonly Face[])
    for (const ink of job.faces[face].inks) {
      const own = shop.inks.find((one) => sameName(one.name, ink.name));
      if (!own) continue;
      const key = `${face} ${ink.id}`;
      uses[key] = { ...figuresOf(own), ...uses[key] };
    }
  return Object.keys(uses).length === 0 ? job.press.inkUse : uses;
}

/**
 * The job with the shop's figures where it states none of its own: meshes, ink use and prices, the first lamp and emulsion,
 * times, hours and resources. What the job states stays.
 */
export function fillFromShop(job: Job, shop: Shop): Job {
  const { press } = job;
  const [lamp] = shop.lamps;
  const [emulsion] = shop.emulsions;
  const habits: Record<string, unknown> = {};
  for (const key of HABITS)
    if (press[key] === undefined && shop.habits[key] !== undefined) habits[key] = shop.habits[key];
  if (press.times && shop.habits.times) habits['times'] = { ...shop.habits.times, ...press.times };
  const known = press.ownMeshes ?? [];
  const fresh = shop.meshes.filter(
    (mesh) => !known.some((m) => m.countPerCm === mesh.countPerCm && m.threadUm === mesh.threadUm),
  );
  const inkUse = inkUseWith(job, shop);
  const burning = {
    ...(lamp ? { lamp: lamp.name } : {}),
    ...(lamp?.distance === undefined ? {} : { distance: lamp.distance }),
    ...(lamp?.time === undefined ? {} : { time: lamp.time }),
    ...(emulsion?.targetStep === undefined ? {} : { targetStep: emulsion.targetStep }),
  };
  const coating = emulsion
    ? {
        name: emulsion.name,
        ...(emulsion.coats === undefined ? {} : { coats: emulsion.coats }),
        ...(emulsion.wetUm === undefined ? {} : { wetUm: emulsion.wetUm }),
        ...(emulsion.waste === undefined ? {} : { waste: emulsion.waste }),
      }
    : {};
  return {
    ...job,
    press: {
      ...press,
      ...habits,
      ...(fresh.length > 0 ? { ownMeshes: [...known, ...fresh] } : {}),
      ...(inkUse ? { inkUse } : {}),
      ...(lamp || emulsion?.targetStep !== undefined ? { exposure: { ...burning, ...press.exposure } } : {}),
      ...(emulsion ? { emulsion: { ...coating, ...press.emulsion } } : {}),
    },
  };
}

/** A new job as this shop begins one: as `fillFromShop`, and in its first frame, on its first printer. */
export function startInShop(job: Job, shop: Shop): Job {
  const filled = fillFromShop(job, shop);
  const [frame] = shop.frames;
  const [printer] = shop.printers;
  return {
    ...filled,
    ...(printer ? { printer } : {}),
    press: frame
      ? {
          ...filled.press,
          frameWidth: frame.width,
          frameLength: frame.length,
          ...(frame.bar === undefined ? {} : { frameBar: frame.bar }),
          ...(frame.count === undefined ? {} : { frames: frame.count }),
        }
      : filled.press,
  };
}
