/** Usual cautions by work. General words: the maker's safety data sheet, local rules and licensed practice come first. */
export type Work =
  | 'any'
  | 'films'
  | 'coating'
  | 'exposure'
  | 'washing'
  | 'printing'
  | 'cleaning'
  | 'coats'
  | 'wood'
  | 'clamps';

/** Said with every list. */
export const DEFER =
  'These are general reminders. The maker’s label and safety data sheet, local rules and licensed practice come first.';

/**
 * Gathered from public pages on printmaking and photography safety of the universities of Utah, Massachusetts and Western
 * Carolina, and on wood dust of California’s OEHHA; those on aerosols, two-part products, blades and clamps are common
 * practice, no source.
 */
export const CAUTIONS: Readonly<Record<Work, readonly string[]>> = {
  any: [
    'Read label and safety data sheet before first use; keep products in their own labelled containers.',
    'No food or drink in the work room; wash hands afterwards.',
  ],
  films: ['Cut away from the hand, along a steel rule, on a mat; a dull blade slips.'],
  coating: [
    'Gloves and goggles when mixing and coating; some sensitisers can cause skin allergy.',
    'Rather a diazo or presensitised emulsion than a dichromate; never pour sensitiser down a drain without asking the local waste service.',
  ],
  exposure: [
    'Never look into a UV lamp; shield it or leave the room, and cover the skin.',
    'Do not lift the lid while the lamp is on. Lamps get hot; let them cool.',
  ],
  washing: [
    'Goggles: a high-pressure rinse throws spray. A floor that does not slip, and no electricity within reach of water.',
  ],
  printing: [
    'Fresh air or extraction with solvent inks; gloves that suit the solvent; no flames, sparks or hot lamps near.',
    'Two-part inks can make the skin allergic: gloves always, changed when soiled.',
  ],
  cleaning: [
    'Goggles and gloves with screen wash and stencil remover; never mix cleaning products.',
    'Solvent rags go into a lidded metal bin.',
  ],
  coats: [
    'Lacquer and aerosol clear coats outdoors or in an extracted booth, never near flames, heaters or sparks; a respirator as the label says.',
    'Let coats dry away from living space; do not puncture or heat cans.',
  ],
  wood: [
    'Hardwood dust can cause cancer of the nose: extract at the tool, wear a close-fitting dust mask, vacuum or wipe wet.',
    'Sanding printed or lacquered wood frees what was on it as well.',
  ],
  clamps: ['Stretched frames and hinge clamps snap shut: keep fingers clear, and prop an open screen.'],
};

/** The cautions of some works, each once. */
export const cautionsFor = (works: readonly Work[]): string[] => [
  ...new Set(works.flatMap((work) => CAUTIONS[work])),
];
