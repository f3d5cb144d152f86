/**
 * Our own single-stroke letters, after the plain lettering of workshop drawings. A point is two base-36 digits, x and y, in
 * half units; the baseline is y = 4, x-height 12, capitals reach 16, tails reach 0. Strokes are parted by a blank.
 */
export const BASELINE = 4;
export const CAP_HEIGHT = 12;
/** Half units between letters. */
export const LETTER_GAP = 3;

export const GLYPHS: Readonly<Record<string, string>> = {
  A: '044g84 1878', B: '040g6g8e8c6a0a 6a88866404', C: '8e6g2g0e06246486', D: '040g5g8d875404',
  E: '8g0g0484 0a6a', F: '8g0g04 0a6a', G: '8e6g2g0e062464868a5a', H: '040g 848g 0a8a',
  I: '0g4g 2g24 0444', J: '6g66442406', K: '040g 8g09 2b84', L: '0g0484',
  M: '040g4a8g84', N: '040g848g', O: '2g6g8e866424060e2g', P: '040g6g8e8b6909',
  Q: '2g6g8e866424060e2g 5783', R: '040g6g8e8b6909 4984', S: '8e6g2g0e0c2a6a8886642406', T: '0g8g 4g44',
  U: '0g062464868g', V: '0g448g', W: '0g244c648g', X: '048g 0g84', Y: '0g4a8g 4a44', Z: '0g8g0484',
  a: '6c64 6a4c2c0a06244466', b: '0g04 0a2c4c6a66442406', c: '6a4c2c0a06244466', d: '6g64 6a4c2c0a06244466',
  e: '08686a4c2c0a06244466', f: '5f4g3g2e24 0c4c', g: '6c62402001 6a4c2c0a06244466', h: '0g04 0a2c4c6a64',
  i: '1c14 1f1g', j: '2c221000 2f2g', k: '0g04 5c08 2964', l: '1g1524',
  m: '0c04 0a2c3c4a44 4a6c7c8a84', n: '0c04 0a2c4c6a64', o: '2c4c6a664424060a2c', p: '0c00 0a2c4c6a66442406',
  q: '6c60 6a4c2c0a06244466', r: '0c04 0a2c4c5b', s: '6b5c1c0b0918586765541405', t: '2f263454 0c5c',
  u: '0c06244466 6c64', v: '0c346c', w: '0c244a648c', x: '046c 0c64', y: '0c34 6c2000', z: '0c6c0464',
  '0': '2g4g6e664424060e2g', '1': '0e2g24 0444', '2': '0e2g4g6e6c0464', '3': '0e2g4g6e6c4a2a 4a6866442406',
  '4': '444g0868', '5': '6g0g0a2b4b6966442406', '6': '5g2g0d06244466684a2a08', '7': '0g6g24',
  '8': '2a0c0e2g4g6e6c4a2a0806244466684a', '9': '6c4a2a0c0e2g4g6e674414',
  '.': '1415', ',': '1502', ':': '1415 1a1b', ';': '1502 1a1b', '!': '1g19 1415', '?': '0e2g4g6e6c3a38 3435',
  '-': '0a4a', '‐': '0a4a', '‑': '0a4a', '–': '0a6a', '—': '0a8a', '−': '0a6a', _: '0262',
  '/': '036g', '\\': '0g63', '(': '3h1e1633', ')': '0h2e2603', '[': '3h1h1333', ']': '0h2h2303',
  '{': '4h3h2f2b1a29252343', '}': '0h1h2f2b3a29251303', '+': '0a6a 3d37', '=': '0c6c 0868', '*': '3f39 0d6b 0b6d',
  '×': '0d67 076d', '%': '048g 0g2g2e0e0g 6686846466', '&': '841d1f2g4g5f5d0806245489', '#': '143g 547g 0c8c 0888',
  '@': '866424060e2g6g8e88686c4c3a384868', "'": '1g1d', '’': '1g0d', '‘': '0g1d', '"': '1g1d 3g3d',
  '“': '0g1d 2g3d', '”': '1g0d 3g2d', '<': '6d0a67', '>': '0d6a07', '|': '1h12', '~': '091b2b494a6b', '^': '0c3g6c',
  '`': '0g2e', '°': '1g2g3f3e2d1d0e0f1g', 'µ': '0c00 06244466 6c64', 'μ': '0c00 06244466 6c64', '±': '0c6c 3f39 0666',
  '·': '1a1b', '•': '1a1b2b2a1a', '…': '1415 4445 7475', '→': '0a8a 6c8a68', '←': '8a0a 2c0a28', '↑': '444g 2e4g6e', '↓': '4g44 264466',
  'ß': '040d2g4g6e6c4a68665434', 'Ø': '2g6g8e866424060e2g 038h', 'ø': '2c4c6a664424060a2c 036d',
  'Æ': '045gcg 5g54c4 5aaa 2858', 'æ': '6c64 6a4c2c0a06244466 68c8caac8c6a 6684a4c6',
  'Ł': '0g0484 084c', 'ł': '1g1524 083c', 'Đ': '040g5g8d875404 0a4a', 'đ': '6g64 6a4c2c0a06244466 4e8e', 'ı': '1c14',
  'Œ': 'cg6g2g0e062464c4 6g64 6aba', '€': '8e6g3g1e16346486 0b6b 0969', '£': '7e5g4g2e24 0484 0a5a', '$': '8e6g2g0e0c2a6a8886642406 4h43',
};

/** Accents, drawn about the letter's middle (x = 4) with y = 0 at its top; the cedilla and ogonek hang at the baseline. */
export const ACCENTS: Readonly<Record<string, { readonly strokes: string; readonly below: boolean }>> = {
  '\u0300': { strokes: '3452', below: false },
  '\u0301': { strokes: '3254', below: false },
  '\u0302': { strokes: '224462', below: false },
  '\u0303': { strokes: '22334263', below: false },
  '\u0304': { strokes: '2363', below: false },
  '\u0306': { strokes: '24325264', below: false },
  '\u0307': { strokes: '4243', below: false },
  '\u0308': { strokes: '2223 6263', below: false },
  '\u030a': { strokes: '4151625344334241', below: false },
  '\u030b': { strokes: '2234 5264', below: false },
  '\u030c': { strokes: '244264', below: false },
  '\u0323': { strokes: '4142', below: true },
  '\u0326': { strokes: '4230', below: true },
  '\u0327': { strokes: '4442514020', below: true },
  '\u0328': { strokes: '44324050', below: true },
};
