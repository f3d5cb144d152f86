/** A word of the trade: what it means here, and a drawing of it in strokes and filled shapes, 64 × 36. */
export interface Word {
  readonly word: string;
  readonly means: string;
  /** Outlines, then shapes of a first and of a second ink. */
  readonly lines?: string;
  readonly first?: string;
  readonly second?: string;
}

export const GLOSSARY: readonly Word[] = [
  {
    word: 'Base',
    means: 'A white laid under other inks, so that they keep their colour on dark wood.',
    lines: 'M4 30h56',
    first: 'M12 24h40v5H12z',
    second: 'M16 17h32v6H16z',
  },
  {
    word: 'Choke',
    means: 'The base drawn a little smaller than what covers it, so that no white rim shows.',
    lines: 'M12 6h40v24H12z',
    first: 'M17 11h30v14H17z',
  },
  {
    word: 'Trap',
    means: 'The strip by which one ink runs under its neighbour, so that no wood shows when a screen moves.',
    first: 'M6 6h32v24H6z',
    second: 'M30 6h28v24H30z',
  },
  {
    word: 'Knock out',
    means: 'One ink left open where another prints, so that the two stand side by side.',
    first: 'M6 4h52v28H6zM24 12v12h16V12z',
  },
  {
    word: 'Separation',
    means: 'What one ink alone has to cover, taken out of the art.',
    lines: 'M4 6h24v24H4zM36 6h24v24H36z',
    first: 'M8 18a8 8 0 1116 0z',
    second: 'M40 18a8 8 0 1116 0z',
  },
  {
    word: 'Film',
    means: 'A separation printed black on clear sheets; it shades the emulsion while the screen is exposed.',
    lines: 'M8 4h48v28H8zM32 4v28M12 8h4M14 6v4',
    first: 'M20 14h24v9H20z',
  },
  {
    word: 'Registration mark',
    means: 'A cross on every film in the same place, by which films, screens and decks are laid true.',
    lines: 'M32 4v28M18 18h28M32 9a9 9 0 100 18 9 9 0 000-18',
  },
  {
    word: 'Pull',
    means: 'One ink’s turn: the blade drawn once over the screen. Pulls are counted in print order.',
    lines: 'M6 28h52M30 6l8 18M26 8l8-4',
    first: 'M8 24h28l-2-5z',
  },
  {
    word: 'Off-contact',
    means: 'The gap between the resting mesh and the wood; the mesh touches only under the blade.',
    lines: 'M6 12h52M6 28h52M32 15v10M29 18l3-3 3 3M29 22l3 3 3-3',
  },
  {
    word: 'Mesh count',
    means: 'Threads a centimetre (or an inch) of the screen. More threads: finer detail, less ink.',
    lines: 'M10 4v28M18 4v28M26 4v28M34 4v28M42 4v28M50 4v28M6 8h52M6 16h52M6 24h52',
  },
  {
    word: 'Concave',
    means: 'How the deck curves up to its rails. A straight blade does not touch all of it.',
    lines: 'M6 10c10 14 42 14 52 0M6 14c10 14 42 14 52 0',
  },
  {
    word: 'Kick',
    means: 'The nose and tail bent up. Lengths along the wood are longer there than seen from above.',
    lines: 'M4 8l12 16h32L60 8',
  },
  {
    word: 'Jig',
    means: 'A board with pins for the truck holes, that holds every deck in the same place under the screen.',
    lines: 'M6 6h52v24H6zM16 18c0-8 32-8 32 0s-32 8-32 0',
    first: 'M24 16h3v3h-3zM37 16h3v3h-3z',
  },
  {
    word: 'Colourway',
    means: 'The same films printed in other inks.',
    first: 'M6 10h22v16H6z',
    second: 'M36 10h22v16H36z',
  },
  {
    word: 'Spoilage',
    means: 'Decks reckoned for that will not come out well enough to sell.',
    lines: 'M12 18c0-12 40-12 40 0s-40 12-40 0M22 8l20 20',
  },
];
