import { strToU8 } from 'fflate';
import { luminanceOfHex } from './colour/index.ts';
import type { Face } from './deck/index.ts';
import {
  type Art,
  fitBox,
  hashOf,
  idFrom,
  type Job,
  type TextData,
  wholeSize,
  withCrop,
} from './job/index.ts';
import { LEADING, type SetText } from './text/index.ts';

/** Set words as a piece's art: the drawing's bytes, and what the piece states of them. */
export function artOfText(text: TextData, set: SetText) {
  const bytes = strToU8(set.svg);
  const name = text.words.replace(/\s+/g, ' ').trim().slice(0, 60);
  const art = {
    name,
    hash: hashOf(bytes),
    mediaType: 'image/svg+xml' as const,
    // The drawing's own units are mm.
    widthPx: set.width,
    heightPx: set.height,
    text,
  };
  return { bytes, art };
}

/** What words start from: a capital a tenth of the deck's width high, in the face's darkest ink. */
export function usualText(job: Job, face: Face, words: string): TextData {
  const inks = job.faces[face].inks.filter((ink) => ink.role !== 'base');
  const darkest = [...inks].sort(
    (a, b) => luminanceOfHex(a.matches ?? a.hex) - luminanceOfHex(b.matches ?? b.hex),
  )[0];
  return {
    words,
    font: 'archivo-black',
    fontName: 'Archivo Black',
    cap: Math.round(job.deck.width / 10),
    tracking: 0,
    leading: LEADING,
    align: 'centre',
    arc: 0,
    hex: darkest?.matches ?? darkest?.hex ?? '#1b2440',
  };
}

/** Words as a new topmost piece, in the middle of the face's printable area at just their size. */
export function placeText(job: Job, face: Face, text: TextData, set: SetText) {
  const { bytes, art } = artOfText(text, set);
  const box = fitBox(job, face, 'surface');
  const pieces = job.faces[face].art;
  const taken = pieces.map((p) => p.id);
  const piece: Art = {
    id: idFrom(art.name, taken),
    ...art,
    width: set.width,
    height: set.height,
    x: box.x + box.width / 2,
    y: box.y + box.height / 2,
    rotationDeg: 0,
    mirror: false,
    wrap: 'surface',
    ground: null,
    hidden: false,
  };
  const faces = { ...job.faces, [face]: { ...job.faces[face], art: [...pieces, piece] } };
  return { job: { ...job, faces }, piece, bytes };
}

/** The words of a piece as they now lie on the deck: one that was scaled by hand has scaled letters. Null where it has no words. */
export function textAsLaid(piece: Art): TextData | null {
  const { text } = piece;
  if (!text) return null;
  const scale = wholeSize(piece).height / piece.heightPx;
  return { ...text, cap: text.cap * scale, tracking: text.tracking * scale, arc: text.arc * scale };
}

/**
 * A piece of words after they were set anew: its stretch stays, and so does the side (or the middle) that its lines keep to.
 * `set` is of `text`, whose lengths are as they measure on the deck. A crop is taken off.
 */
export function resetText(piece: Art, text: TextData, set: SetText) {
  const { bytes, art } = artOfText(text, set);
  const whole = wholeSize(piece);
  const stretch = whole.width / piece.widthPx / (whole.height / piece.heightPx);
  const width = set.width * stretch;
  const share = { left: -0.5, centre: 0, right: 0.5 }[text.align] * (piece.mirror ? -1 : 1);
  const along = share * (whole.width - width);
  const turn = (piece.rotationDeg * Math.PI) / 180;
  const { crop: _, ...rest } = { ...piece, ...withCrop(piece, null) };
  const next: Art = {
    ...rest,
    ...art,
    width,
    height: set.height,
    x: rest.x + along * Math.cos(turn),
    y: rest.y + along * Math.sin(turn),
  };
  return { piece: next, bytes };
}
