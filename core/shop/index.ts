export { type Bench, BenchSchema } from './bench.ts';
export { type Emulsion, EmulsionSchema } from './emulsion.ts';
export { type Frame, FrameSchema } from './frame.ts';
export { keepForShop, samePrinter, withPrinterFirst } from './keepForShop.ts';
export { type Lamp, LampSchema } from './lamp.ts';
export { HABITS, RunHabitsSchema } from './runHabits.ts';
export {
  readPaletteInks,
  type ShelfInk,
  shelfInk,
  shelfOf,
  withoutShelfInk,
  withShelfInks,
} from './shelf.ts';
export { EMPTY_SHOP, isEmptyShop, readShop, SHOP_VERSION, type Shop, ShopSchema } from './shop.ts';
export { type ShopInk, ShopInkSchema, sameName } from './shopInk.ts';
export { fillFromShop, startInShop } from './takeShop.ts';
