/** An open typeface that comes with the program (SIL Open Font License), its files one for each range of letters. */
export interface Typeface {
  readonly id: string;
  readonly name: string;
  /** What it is good for, in a few words. */
  readonly says: string;
  readonly files: readonly string[];
}

const latin = (id: string) => [`${id}-latin-400-normal.woff2`, `${id}-latin-ext-400-normal.woff2`];

/** Bold faces that hold on a screen: no hairlines that a mesh would lose at a few millimetres. */
export const TYPEFACES: readonly Typeface[] = [
  { id: 'archivo-black', name: 'Archivo Black', says: 'heavy and plain', files: latin('archivo-black') },
  { id: 'anton', name: 'Anton', says: 'tall and narrow', files: latin('anton') },
  { id: 'alfa-slab-one', name: 'Alfa Slab One', says: 'slab feet', files: latin('alfa-slab-one') },
  { id: 'bungee', name: 'Bungee', says: 'shop sign', files: latin('bungee') },
  { id: 'pacifico', name: 'Pacifico', says: 'brush script', files: latin('pacifico') },
  {
    id: 'stardos-stencil',
    name: 'Stardos Stencil',
    says: 'stencil, with bridges',
    files: ['stardos-stencil-latin-400-normal.woff2'],
  },
];
