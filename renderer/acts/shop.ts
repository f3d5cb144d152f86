import type { Bench, Shop } from '../../core/shop/index.ts';
import { tell, useStudio } from '../state/index.ts';
import { shell } from './shell.ts';

/** Fetches what the program keeps of the shop. */
export async function loadShop(): Promise<Shop | null> {
  const read = await shell().shop();
  if (read.ok) {
    useStudio.setState({ shop: read.value });
    return read.value;
  }
  if (read.kind !== 'cancelled') tell('trouble', read.reason, read.mend);
  return null;
}

let last: Promise<unknown> = Promise.resolve();

/**
 * Changes what the shop keeps. The program's own copy is fetched first and changes follow one another, so that two windows
 * do not undo each other's.
 */
export function changeShop(change: (shop: Shop) => Shop, said?: string): Promise<void> {
  const act = async () => {
    const read = await shell().shop();
    // What can not be read is laid aside by the program when the next is kept.
    const before = read.ok ? read.value : useStudio.getState().shop;
    const shop = change(before);
    const kept = await shell().keepShop(shop);
    if (!kept.ok) {
      tell('trouble', kept.reason, kept.mend);
      return;
    }
    useStudio.setState({ shop });
    if (said) tell('done', said);
  };
  const mine = last.then(act, act);
  last = mine;
  return mine;
}

/** Changes how the studio is set on this machine: at once in this window, then in what is kept. */
export function setBench(change: (bench: Bench) => Bench): Promise<void> {
  const changed = (shop: Shop): Shop => ({
    ...shop,
    bench: { ...shop.bench, ...change(shop.bench ?? {}) },
  });
  useStudio.setState({ shop: changed(useStudio.getState().shop) });
  return changeShop(changed);
}
