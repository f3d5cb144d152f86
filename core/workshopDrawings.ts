import { strToU8 } from 'fflate';
import type { FilmPrinter } from './film/index.ts';
import type { Job } from './job/index.ts';
import { templatesPdf } from './pdf/index.ts';
import type { Deflate } from './ports/index.ts';
import {
  type Drawing,
  drawing,
  drawingDxf,
  drawingSvg,
  jigDrawing,
  sectionOf,
  squeegeeDrawing,
  USUAL,
} from './press/index.ts';
import { jigOf, printedFaces } from './runOf.ts';
import { done, type Outcome } from './units/index.ts';

/** Every workshop drawing of the job: a jig, a squeegee and its form for each printed face. */
export function workshopDrawings(job: Job): { drawings: Drawing[]; notes: string[] } {
  const drawings: Drawing[] = [];
  const notes: string[] = [];
  const take = (made: Outcome<Drawing>, what: string) => {
    if (made.ok) drawings.push(made.value);
    else notes.push(`No ${what}: ${made.reason} ${made.mend}`);
  };
  for (const face of printedFaces(job)) {
    take(jigDrawing(job.deck, face, jigOf(job)), `jig for the ${face}`);
    const { blade, plies } = job.press;
    take(
      squeegeeDrawing({ ...sectionOf(job.deck, face), blade, plies: plies ?? USUAL.plies.value }),
      `squeegee for the ${face}`,
    );
  }
  return { drawings, notes };
}

/** A drawing for paper: the frame needs no sheets of its own. */
const onPaper = (made: Drawing): Drawing =>
  drawing(
    made.name,
    made.title,
    made.items.filter((item) => item.layer !== 'frame'),
    2,
  );

/** The drawings at 1:1: on tiled pages, and as SVG and DXF for a cutter. */
export async function drawingFiles(
  jobName: string,
  drawings: readonly Drawing[],
  printer: FilmPrinter,
  deflate: Deflate,
): Promise<Outcome<Map<string, Uint8Array>>> {
  const files = new Map<string, Uint8Array>();
  const named = (start: string) => drawings.filter((d) => d.name.startsWith(start));
  for (const [name, title, list] of [
    ['jig.pdf', `${jobName}: jig`, named('jig').map(onPaper)],
    ['squeegee.pdf', `${jobName}: squeegee and form`, named('squeegee')],
  ] as const) {
    if (list.length === 0) continue;
    const made = await templatesPdf(list, printer, { title, deflate });
    if (!made.ok) return made;
    files.set(name, made.value);
  }
  for (const made of drawings) {
    files.set(`${made.name}.svg`, strToU8(drawingSvg(made)));
    files.set(`${made.name}.dxf`, strToU8(drawingDxf(made)));
  }
  return done(files);
}
