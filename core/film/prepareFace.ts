import type { PxBox } from '../raster/index.ts';
import type { FilmPoint } from '../units/index.ts';
import { type Boxed, boxFilm, faceCommon, type OwnInk } from './filmBox.ts';
import { type FaceMarks, filmMarks } from './filmMarks.ts';
import { holeShapes } from './holeMark.ts';
import { type InkProfile, joinProfiles } from './inkSearch.ts';
import type { LayOutRequest } from './layOutRequest.ts';
import { type Plan, planTurn } from './planSheets.ts';
import { SEAM_MARGIN, SLIM_SEAM_MARGIN } from './seam.ts';
import type { Shape } from './shape.ts';

export interface Prepared {
  readonly about: 'deck' | 'art';
  readonly sides: 'full' | 'slim';
  readonly marks: FaceMarks;
  readonly boxed: readonly Boxed[];
  readonly plans: readonly Plan[];
  /** Fewest pages over the ways a picture can lie; Infinity where none fits. */
  readonly sheets: number;
}

/** What is the same however the marks stand: the films' own ink, that of all together, and what is drawn at truck holes. */
interface FaceInk {
  readonly inks: readonly OwnInk[];
  readonly profile: InkProfile;
  readonly all: PxBox | null;
  readonly crossAt: (hole: FilmPoint) => readonly Shape[];
}

/** Marks, boxes and sheet counts of a face, its marks standing so. */
function prepare(
  request: LayOutRequest,
  { profile, all, inks, crossAt }: FaceInk,
  how: Pick<Prepared, 'about' | 'sides'>,
): Prepared {
  const { films, holes } = request;
  const verniers = request.options?.verniers ?? true;
  const marks = filmMarks(films, holes, { verniers, ...how, profile, all, crossAt });
  const beside = how.sides === 'full' ? SEAM_MARGIN : SLIM_SEAM_MARGIN;
  const common = faceCommon(profile, marks.byFilm.flat(), beside);
  const boxed = films.map((film, i) => boxFilm(film, inks[i]!, marks.byFilm[i]!, common));
  const plans = ([0, 90] as const).flatMap((turn) => planTurn(request, boxed, turn) ?? []);
  return { ...how, marks, boxed, plans, sheets: Math.min(...plans.map((plan) => plan.sheets)) };
}

/** The box about the ink of all films, null for none. */
function aroundAll(inks: readonly OwnInk[]): PxBox | null {
  const boxes = inks.flatMap(({ box }) => box ?? []);
  if (boxes.length === 0) return null;
  const x = Math.min(...boxes.map((box) => box.x));
  const y = Math.min(...boxes.map((box) => box.y));
  const right = Math.max(...boxes.map((box) => box.x + box.width));
  const bottom = Math.max(...boxes.map((box) => box.y + box.height));
  return { x, y, width: right - x, height: bottom - y };
}

/** Every way the marks may stand, the most wanted first; `inks` are the films' own. */
export function prepareAll(request: LayOutRequest, inks: readonly OwnInk[]): Prepared[] {
  const profile = joinProfiles(inks.map((ink) => ink.survey));
  const all = aroundAll(inks);
  const crosses = new Map<FilmPoint, readonly Shape[]>();
  const crossAt = (hole: FilmPoint) => {
    const cross = crosses.get(hole) ?? holeShapes(hole, request.films);
    crosses.set(hole, cross);
    return cross;
  };
  const wish = request.options?.marks ?? 'auto';
  // Without art there is nothing to stand close about.
  const bare = inks.every((ink) => ink.box === null);
  const abouts = bare ? (['deck'] as const) : wish === 'auto' ? (['deck', 'art'] as const) : [wish];
  return abouts.flatMap((about) =>
    (['full', 'slim'] as const).map((sides) =>
      prepare(request, { inks, profile, all, crossAt }, { about, sides }),
    ),
  );
}
