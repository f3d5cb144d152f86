import { type InkSurvey, type PxBox, surveyedBox, surveyInk } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import { boundsOf } from './bounds.ts';
import type { FilmMark } from './faceLayout.ts';
import type { FilmArt } from './filmArt.ts';
import type { InkProfile } from './inkSearch.ts';

/** mm between the rows from which the ink of columns is estimated. */
const SURVEY_STEP = 1 / 4;

/** One film's own ink, found once: where it lies in its raster (null for none), its area, and what every row and column has. */
export interface OwnInk {
  readonly box: PxBox | null;
  readonly inkedCm2: number;
  readonly survey: InkSurvey;
}

/** What of a film its survey needs. */
export type Surveyed = Pick<FilmArt, 'mask' | 'dpi'>;

export function ownInk(art: Surveyed): OwnInk {
  const scale = art.dpi / 25.4;
  const survey = surveyInk(art.mask, Math.max(1, Math.round(scale * SURVEY_STEP)));
  const points = survey.rows.reduce((sum, ink) => sum + ink, 0);
  return { box: surveyedBox(survey), inkedCm2: points / scale / scale / 100, survey };
}

/** One film before its sheets: box in pixels of the art's own raster (it may reach beyond it). */
export interface Boxed {
  readonly art: FilmArt;
  readonly marks: readonly FilmMark[];
  readonly px: PxBox;
  readonly box: Box;
  readonly inkedCm2: number;
}

/** What all films of a face share: the boxes of their marks, film space mm, and the rows any of them prints in. */
export interface FaceCommon {
  readonly marks: readonly Box[];
  readonly y0: number;
  readonly y1: number;
  /** mm kept free beside the art for seam marks. */
  readonly beside: number;
}

export function faceCommon(profile: InkProfile, common: readonly FilmMark[], beside: number): FaceCommon {
  const marks = common.flatMap(({ shapes }) => boundsOf(shapes) ?? []);
  const { right } = profile;
  const y0 = Math.max(
    0,
    right.findIndex((last) => last >= 0),
  );
  const y1 = right.findLastIndex((last) => last >= 0) + 1;
  return { marks, y0, y1, beside };
}

/** A box of pixels of the art's raster in film space mm. */
export function boxOf(art: FilmArt, px: PxBox): Box {
  const scale = art.dpi / 25.4;
  const [x, y, width, height] = [px.x as number, px.y as number, px.width as number, px.height as number];
  return {
    x: art.box.x + x / scale,
    y: art.box.y + art.box.height - (y + height) / scale,
    width: width / scale,
    height: height / scale,
  };
}

/**
 * The film's box: this ink's own art with room for seam marks beside it, and the face's marks as all films together print
 * them, rounded out to whole pixels.
 */
export function boxFilm(art: FilmArt, ink: OwnInk, marks: readonly FilmMark[], common: FaceCommon): Boxed {
  const scale = art.dpi / 25.4;
  const top = art.box.y + art.box.height;
  const own = ink.box;
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  if (own) [x0, x1, y0, y1] = [own.x, own.x + own.width, own.y, own.y + own.height];
  if (common.y1 > common.y0) {
    // Seam marks stand beside the art of all films, or they would print among another ink's.
    const beside = Math.ceil(common.beside * scale);
    y0 = Math.min(y0, common.y0 - beside);
    y1 = Math.max(y1, common.y1 + beside);
  }
  for (const box of common.marks) {
    x0 = Math.min(x0, Math.floor((box.x - art.box.x) * scale) - 1);
    x1 = Math.max(x1, Math.ceil((box.x + box.width - art.box.x) * scale) + 1);
    y0 = Math.min(y0, Math.floor((top - box.y - box.height) * scale) - 1);
    y1 = Math.max(y1, Math.ceil((top - box.y) * scale) + 1);
  }
  const px = { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
  return { art, marks, px, box: boxOf(art, px), inkedCm2: ink.inkedCm2 };
}
