import { copyFile, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { shopTrouble } from '../../core/sentences/index.ts';
import { EMPTY_SHOP, readShop, type Shop } from '../../core/shop/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { makeFolder, writeWhole } from './wholeFile.ts';

export interface ShopFile {
  read(): Promise<Outcome<Shop>>;
  keep(shop: Shop): Promise<Outcome<void>>;
}

/**
 * The shop's own figures, in one file beside the recent jobs. A file that can not be read is said to be so; the next keeping
 * lays it aside as `shop.damaged.json` first, so that nothing typed in is lost.
 */
export function shopFile(dir: string): ShopFile {
  const path = join(dir, 'shop.json');
  async function read(): Promise<Outcome<Shop>> {
    let text: string;
    try {
      text = await readFile(path, 'utf8');
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return done(EMPTY_SHOP);
      return shopTrouble.unread();
    }
    let raw: unknown;
    try {
      raw = JSON.parse(text);
    } catch {
      return shopTrouble.notJson();
    }
    return readShop(raw);
  }
  return {
    read,
    async keep(shop) {
      const before = await read();
      try {
        await makeFolder(dir);
        if (!before.ok && before.kind === 'input') await copyFile(path, join(dir, 'shop.damaged.json'));
        await writeWhole(path, Buffer.from(`${JSON.stringify(shop, null, 1)}\n`));
        return done(undefined);
      } catch {
        return shopTrouble.notKept();
      }
    },
  };
}
