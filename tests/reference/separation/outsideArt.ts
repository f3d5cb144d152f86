import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/**
 * Flat art that this project did not draw, read from icon sets on npm (development dependencies, nothing of them is carried
 * here): animals, plants, food, things and flags. No people, no brands.
 */
const SETS = {
  /** Fluent Emoji, flat: © Microsoft Corporation, MIT. */
  'fluent-emoji-flat':
    'accordion butterfly carp-streamer compass crab fish frog guitar hibiscus lobster national-park octopus owl parrot rocket rooster sailboat snail swan turtle volcano water-wave',
  /** Twemoji: © Twitter and its contributors, CC BY 4.0. */
  twemoji:
    'bicycle canoe dragon flamingo hedgehog night-with-stars peacock roller-skate skateboard sunrise-over-mountains tropical-fish watermelon',
  /** Circle Flags: © HatScripts, MIT. */
  'circle-flags': 'br bt jm ke mx np sc za',
  /** Flat Color Icons: © Icons8, MIT. */
  'flat-color-icons': 'camera film-reel gallery home idea landscape',
  /** Freehand: © Streamline, CC BY 4.0. */
  'streamline-freehand-color':
    'amusement-park-castle circus-tent color-palette-sample-2 design-tool-pen-pencil-brush office-desk-lamp phone-retro-1 ruler-t settings-wrench-double',
} as const;

type SetName = keyof typeof SETS;

export interface OutsidePiece {
  /** The set and the piece's name in it. */
  readonly set: SetName;
  readonly name: string;
  readonly licence: string;
  /** The drawing `px` points a side; `hard` without antialiasing. */
  svg(px: number, hard: boolean): string;
}

interface IconSet {
  readonly width?: number;
  readonly height?: number;
  readonly icons: Readonly<Record<string, { readonly body: string; readonly width?: number }>>;
}
const find = createRequire(import.meta.url);
const read = (set: SetName, file: string): unknown =>
  JSON.parse(readFileSync(find.resolve(`@iconify-json/${set}/${file}.json`), 'utf8'));

/** All pieces, set by set. Throws when a set lacks one. */
export const outsideArt = (): OutsidePiece[] =>
  (Object.keys(SETS) as SetName[]).flatMap((set) => {
    const { icons, width = 16, height = 16 } = read(set, 'icons') as IconSet;
    const { license } = read(set, 'info') as { license: { spdx: string } };
    return SETS[set].split(' ').map((name) => {
      const icon = icons[name];
      if (!icon) throw new Error(`The set ${set} has no ${name}.`);
      return {
        set,
        name,
        licence: license.spdx,
        svg: (px: number, hard: boolean) =>
          `<svg xmlns="http://www.w3.org/2000/svg" width="${px}" height="${px}" viewBox="0 0 ${width} ${height}"${hard ? ' shape-rendering="crispEdges"' : ''}>${icon.body}</svg>`,
      };
    });
  });
