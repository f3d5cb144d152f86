import type { Face } from './deck/index.ts';
import type { FaceLayout, FilmLayout } from './film/index.ts';
import { FINE, type MeshLoss } from './filmFineness.ts';
import type { Ink, Job } from './job/index.ts';
import type { SheetPull } from './pdf/index.ts';
import { adviseMesh, cautionsFor, type Mesh, meshFigures, sectionOf } from './press/index.ts';
import { inkLine } from './runCounts.ts';
import { inkIn, inkUseOf, lotsOf, meshOf } from './runOf.ts';
import { done, MM_PER_INCH, type Mm, type Outcome } from './units/index.ts';

/** Rings on a pull's picture. */
const MOST_PLACES = 12;

/** The mesh a film's ink goes through, and the finest line it holds. */
export function meshOfFilm(job: Job, face: Face, film: FilmLayout): Outcome<{ mesh: Mesh; holds: Mm }> {
  const mesh = meshOf(job, face, inkOf(job, face, film));
  const figures = meshFigures(mesh);
  return figures.ok ? done({ mesh, holds: figures.value.result.finestLine }) : figures;
}

function inkOf(job: Job, face: Face, film: FilmLayout): Ink {
  const ink = job.faces[face].inks[film.art.pull - 1];
  if (!ink) throw new Error('A film has no ink.');
  return ink;
}

/** A film with the numbers of its page; `loss` is what its mesh may lose of it. */
export function pullSheet(
  job: Job,
  layout: FaceLayout,
  film: FilmLayout,
  loss: MeshLoss,
): Outcome<SheetPull> {
  const { face } = layout;
  const ink = inkOf(job, face, film);
  const mesh = meshOf(job, face, ink);
  const use = inkUseOf(job, face, ink);
  const lots = lotsOf(job);
  const line = inkLine(job, face, ink, film.inkedCm2);
  if (!line.ok) return line;
  const fine = loss.finest;
  const lpi = film.art.screen?.lpi;
  const own = job.press.ownMeshes;
  const advice = adviseMesh({
    ...fine,
    kind: ink.kind,
    chosen: mesh,
    ...(lpi === undefined ? {} : { lpi }),
    ...(own && own.length > 0 ? { stock: own as unknown as (typeof mesh)[] } : {}),
  });
  if (!advice.ok) return advice;
  const { good, warnings } = advice.value.result;
  const best = good[0];
  const lost = warnings.length === 0 ? [] : placesOnFilm(loss, film, layout.dpi);
  const width = (mm: number | null) => (mm === null ? `over ${FINE} mm` : `${(mm as number).toFixed(2)} mm`);
  const section = sectionOf(job.deck, face);
  const { ml, grams } = line.value;
  const exposure = job.press.exposure?.time;
  return done({
    layout,
    film,
    kind: ink.kind,
    settings: [
      ['mesh, threads/cm and µm', `${mesh.countPerCm}-${mesh.threadUm}`],
      ['finest line', width(fine.line)],
      ['finest gap', width(fine.gap)],
      ['ink for the run', `${ml.toFixed(0)} ml, ${grams.toFixed(0)} g`],
      ['printing strokes', String(use.passes)],
      ['off-contact', `${job.press.offContact} mm`],
      [
        'squeegee blade',
        `${job.press.blade} mm, ${section.depth > 0 ? (face === 'bottom' ? 'concave' : 'convex') : 'straight'}`,
      ],
      ['exposure', exposure === undefined ? '______ s' : `${exposure} s`],
      ['film', `${film.sheets.length} ${film.sheets.length === 1 ? 'sheet' : 'sheets'}`],
    ],
    fine: lost.slice(0, MOST_PLACES),
    warnings: [
      ...(warnings.length > 0 ? [warnings.join(' ')] : []),
      ...(lost.length > 0
        ? [
            `${lost.length} ${lost.length === 1 ? 'place is' : 'places are'} too fine for this mesh${lost.length > MOST_PLACES ? '; the largest are ringed' : ', ringed above'}.`,
          ]
        : []),
      ...(warnings.length > 0
        ? [
            best
              ? `Of ${own && own.length > 0 ? 'your' : 'the usual'} meshes, ${best.countPerCm}-${best.threadUm} holds it with the thickest ink.`
              : 'No mesh at hand holds all of it: thicken what is fine, or print it in another ink.',
          ]
        : []),
    ],
    steps: [
      `Film checked over pull 1, toner side to the emulsion${job.printer.mirror ? ' (these films are mirrored: bare side to the emulsion)' : ''}.`,
      'Screen dry, pinholes closed, edges taped.',
      'Jig bolts through the holes, nose to the right; frame in its hinge clamps.',
      'Test on paper, then on a spoiled deck; read the verniers, move the clamps, write it below.',
      `Ink stirred: ${ink.name}; weigh the pot: ________ g.`,
    ],
    lots: lots.map((lot) => {
      const own = inkIn(job, ink, lot.colourwayId);
      return { ...lot, ink: own.name, inkHex: own.hex };
    }),
    earlier: corrections(job, face, ink.id),
    cautions: cautionsFor(['printing', 'clamps']),
  });
}

/** What the tests of this screen said, the last run's first. */
function corrections(job: Job, face: Face, inkId: string): string[] {
  const last = job.press.earlier?.at(-1);
  const said = (tests: NonNullable<Job['press']['registerTests']>, before: string) =>
    tests
      .filter((test) => test.face === face && test.inkId === inkId)
      .map((test) => `${before}${test.words} (${test.left.toFixed(2)} mm left)`);
  return [
    ...(last ? said(last.registerTests, `${last.name}: `) : []),
    ...said(job.press.registerTests ?? [], ''),
  ];
}

/** Where lines and gaps are finer than the mesh holds, film mm, the largest first. */
function placesOnFilm({ places }: MeshLoss, film: FilmLayout, dpi: number): [number, number][] {
  const mm = MM_PER_INCH / dpi;
  const { x, y, height } = film.box;
  return places.map(({ box }) => [
    x + (box.x + box.width / 2) * mm,
    y + height - (box.y + box.height / 2) * mm,
  ]);
}
