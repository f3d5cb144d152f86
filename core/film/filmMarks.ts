import type { PxBox } from '../raster/index.ts';
import type { FilmPoint } from '../units/index.ts';
import { boundsOf } from './bounds.ts';
import type { FilmMark } from './faceLayout.ts';
import type { FilmArt } from './filmArt.ts';
import { HOLE_ARM } from './holeMark.ts';
import { anyInk, type InkProfile } from './inkSearch.ts';
import { FULL_MARK, groupReach, MARK_LINE, markGroup, SLIM_MARK } from './markGroup.ts';
import { type Affine, bar, line, place, type Shape } from './shape.ts';

/** mm: a nose arrow's length. */
const ARROW = 9;

const arrowShapes = (): Shape[] => [
  line(MARK_LINE * 2, [-ARROW / 2, 0], [ARROW / 2 - 2, 0]),
  {
    kind: 'fill',
    points: [
      [ARROW / 2, 0],
      [ARROW / 2 - 3.5, 1.6],
      [ARROW / 2 - 3.5, -1.6],
    ],
  },
  bar(-ARROW / 2 - 0.5, -1.2, 0.5, 2.4),
];

/**
 * Where main marks stand, mm: the columns (u) and the line (v) they are centred on, and the outermost ink of all films at
 * and about them. They keep to the deck's own axes, unless marks go by the art and the art lies off an axis.
 */
function artEdges(
  films: readonly FilmArt[],
  profile: InkProfile,
  all: PxBox | null,
  reach: { readonly before: number; readonly after: number },
  about: 'deck' | 'art',
) {
  const { box, dpi, mask } = films[0]!;
  const scale = dpi / 25.4;
  const [w, h] = [mask.width as number, mask.height as number];
  const topV = box.y + box.height;
  const columns = (from: number, to: number) =>
    [Math.max(0, Math.floor((from - box.x) * scale)), Math.min(w, Math.ceil((to - box.x) * scale))] as const;
  const rows = (from: number, to: number) =>
    [Math.max(0, Math.floor((topV - to) * scale)), Math.min(h, Math.ceil((topV - from) * scale))] as const;
  let [top, bottom, left, right] = [h, -1, w, -1];
  const [allTop, allLeft] = all ? [all.y, all.x] : [h >> 1, w >> 1];
  const [allBottom, allRight] = all ? [all.y + all.height - 1, all.x + all.width - 1] : [allTop, allLeft];
  const middle = (low: number, high: number) =>
    about === 'art' && (low > 0 || high < 0) ? (low + high) / 2 : 0;
  const u = middle(box.x + allLeft / scale, box.x + (allRight + 1) / scale);
  const v = middle(topV - (allBottom + 1) / scale, topV - allTop / scale);
  const span = Math.max(reach.before, reach.after);
  const [c0, c1] = columns(u - span, u + span);
  for (let x = c0; x < c1; x++) {
    top = Math.min(top, profile.top[x]!);
    bottom = Math.max(bottom, profile.bottom[x]!);
  }
  const [r0, r1] = rows(v - span, v + span);
  for (let y = r0; y < r1; y++) {
    left = Math.min(left, profile.left[y]!);
    right = Math.max(right, profile.right[y]!);
  }
  // Where nothing prints beside a mark, it stands at the edge of the art as a whole, never among it.
  if (bottom < 0) [top, bottom] = [allTop, allBottom];
  if (right < 0) [left, right] = [allLeft, allRight];
  return {
    u,
    v,
    top: topV - top / scale,
    bottom: topV - (bottom + 1) / scale,
    left: box.x + left / scale,
    right: box.x + (right + 1) / scale,
  };
}

export interface FaceMarks {
  /** For each film, in order; kinds and places are the same in all, only vernier scales differ. */
  readonly byFilm: readonly (readonly FilmMark[])[];
  readonly notes: readonly string[];
  /** Truck holes that lie too far from the art to be marked. */
  readonly leftOut: number;
  /** Do the marks fore and aft stand on the deck's centreline? */
  readonly onCentreline: boolean;
}

/**
 * Marks of every film of a face, film space: registration marks on the centreline fore and aft and at both sides (with
 * vernier scales when asked; `slim` sides are smaller and have those along the edge alone), cross-hairs at the truck holes, arrows to the nose. `profile` is that of all films together. None lies over ink of any film.
 */
export function filmMarks(
  films: readonly FilmArt[],
  holes: readonly FilmPoint[],
  how: {
    readonly verniers: boolean;
    readonly sides: 'full' | 'slim';
    readonly about: 'deck' | 'art';
    readonly profile: InkProfile;
    /** The box of all films' ink, null for none. */
    readonly all: PxBox | null;
    /** What is drawn at a truck hole, see `holeShapes`. */
    readonly crossAt: (hole: FilmPoint) => readonly Shape[];
  },
): FaceMarks {
  const { verniers, sides, profile } = how;
  const notes: string[] = [];
  const pulls = films[0]!.pulls;
  const reach = groupReach(pulls, verniers);
  const { before } = reach;
  const edge = artEdges(films, profile, how.all, reach, how.about);
  const clear = FULL_MARK.clearance;
  const side = sides === 'full' ? FULL_MARK : SLIM_MARK;
  const strips: readonly Affine[] = [
    [0, -1, 1, 0, edge.right + clear, edge.v],
    [0, 1, -1, 0, edge.left - clear, edge.v],
    [1, 0, 0, 1, edge.u, edge.top + side.clearance],
    [-1, 0, 0, -1, edge.u, edge.bottom - side.clearance],
  ];
  const arrowAt = (strip: Affine, turn: Affine): FilmMark => {
    const x = strip[4] + strip[0] * -(before + 8) + (strip[2] * side.depth) / 2;
    const y = strip[5] + strip[1] * -(before + 8) + (strip[3] * side.depth) / 2;
    return { kind: 'nose', x, y, shapes: place(place(arrowShapes(), turn), [1, 0, 0, 1, x, y]) };
  };
  const arrows = strips
    .slice(2)
    .map((strip) => arrowAt(strip, [1, 0, 0, 1, 0, 0]))
    .filter(({ x, y }) => !anyInk(films, { x: x - ARROW / 2 - 2, y: y - 3, width: ARROW + 4, height: 6 }));
  const byFilmMain = films.map((film) => [
    ...strips.flatMap((strip, i) => markGroup(film, strip, verniers, i < 2 ? FULL_MARK : side)),
    ...arrows,
  ]);
  const near = how.about === 'deck' ? holes : holesWithin(holes, byFilmMain.flat());
  const cross = near.map((hole) => ({ hole, shapes: how.crossAt(hole) }));
  const covered = cross.filter(({ shapes }) => shapes.length === 0).length;
  if (covered > 0) {
    notes.push(
      `${covered} of ${near.length} truck holes lie under solid ink and have no cross-hair; the other marks serve.`,
    );
  }
  const holeMarks: FilmMark[] = cross
    .filter(({ shapes }) => shapes.length > 0)
    .map(({ hole, shapes }) => ({ kind: 'hole', x: hole.u, y: hole.v, shapes }));
  const byFilm = byFilmMain.map((main) => [...main, ...holeMarks]);
  return { byFilm, notes, leftOut: holes.length - near.length, onCentreline: edge.v === 0 };
}

/** Holes whose whole cross-hair lies within the box of the main marks. */
function holesWithin(holes: readonly FilmPoint[], main: readonly FilmMark[]): FilmPoint[] {
  const box = boundsOf(main.flatMap((mark) => mark.shapes));
  if (!box) return [];
  return holes.filter(
    ({ u, v }) =>
      u - HOLE_ARM >= box.x &&
      u + HOLE_ARM <= box.x + box.width &&
      v - HOLE_ARM >= box.y &&
      v + HOLE_ARM <= box.y + box.height,
  );
}
