import type { Shop } from '../../core/shop/index.ts';
import type { Column } from '../bench/index.ts';

const name: Column = { key: 'name', label: 'name', kind: 'words' };
const count = (key: string, label: string, min: number, max: number): Column => ({
  key,
  label,
  kind: 'number',
  min,
  max,
  digits: 0,
});
const amount = (
  key: string,
  label: string,
  min: number,
  max: number,
  unit?: string,
  always?: boolean,
): Column => ({
  key,
  label,
  kind: 'number',
  min,
  max,
  ...(unit === undefined ? {} : { unit }),
  ...(always ? { always } : {}),
});

export type ShopList = 'frames' | 'lamps' | 'emulsions' | 'meshes' | 'inks';

/** A mesh as its maker's sheet states it. */
export const MESH_COLUMNS: readonly Column[] = [
  amount('countPerCm', 'threads a cm', 5, 250, undefined, true),
  amount('threadUm', 'thread', 5, 2000, 'µm', true),
  amount('openingUm', 'opening', 1, 2000, 'µm'),
  amount('thicknessUm', 'thickness', 1, 4000, 'µm'),
];

/** The shop's lists as tables: the same bounds as its file has. */
export const LISTS: readonly {
  readonly list: ShopList;
  readonly title: string;
  readonly one: string;
  readonly fresh: Shop[ShopList][number];
  readonly columns: readonly Column[];
}[] = [
  {
    list: 'frames',
    title: 'Frames',
    one: 'a frame',
    fresh: { name: 'New frame', width: 400, length: 1060 },
    columns: [
      name,
      amount('length', 'inside, along', 1, 5000, 'mm', true),
      amount('width', 'inside, across', 1, 3000, 'mm', true),
      amount('bar', 'own bar', 0, 300, 'mm'),
      count('count', 'how many', 1, 200),
    ],
  },
  {
    list: 'lamps',
    title: 'Lamps',
    one: 'a lamp',
    fresh: { name: 'New lamp' },
    columns: [
      name,
      amount('distance', 'to the glass', 1, 20_000, 'mm'),
      amount('time', 'last good exposure', 0.1, 86_400, 's'),
    ],
  },
  {
    list: 'emulsions',
    title: 'Emulsions',
    one: 'an emulsion',
    fresh: { name: 'New emulsion' },
    columns: [
      name,
      count('coats', 'coats a side', 1, 20),
      amount('wetUm', 'a wet coat', 1, 1000, 'µm'),
      amount('targetStep', 'step wanted', 1, 41),
    ],
  },
  {
    list: 'meshes',
    title: 'Meshes',
    one: 'a mesh',
    fresh: { countPerCm: 77, threadUm: 55 },
    columns: MESH_COLUMNS,
  },
  {
    list: 'inks',
    title: 'Inks',
    one: 'an ink',
    fresh: { name: 'New ink' },
    columns: [
      name,
      amount('potMl', 'pot', 1, 100_000, 'ml'),
      amount('price', 'price of a pot', 0, 1e9),
      amount('density', 'weighs', 0.3, 8, 'g/ml'),
      count('passes', 'strokes', 1, 50),
    ],
  },
];
