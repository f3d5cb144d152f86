import {
  ASLANT,
  drawable,
  type FaceLayout,
  type FilmLayout,
  type GuidePictures,
  guidePictures,
  inkLabel,
  jointsOf,
  type Seam,
  sheetNamed,
  shorten,
} from '../film/index.ts';
import type { Abort } from '../units/index.ts';
import { ACCENT, assemblySteps, CAUTION, drawVernier, SOFT } from './assemblyGuide.ts';
import { drawFilm, drawKey, orderedCrossings } from './filmPicture.ts';
import { drawJoint, jointHeight, MOST_NUMBERS } from './jointPicture.ts';
import { Paper, type PaperPage, tintOf } from './paper.ts';
import { drawSigns } from './signsPicture.ts';

const EDGE = 14;
/** mm of a page a film's picture takes at most: measures and joints stand beneath it. */
const MOST_HIGH = 150;
/** mm from there to the picture of the signs, beside that of the scales. */
const SIGNS = 98;

/** Guides are printed on the films' own sheet size when a person can read a page of it, else on A4. */
function paperSize(layout: FaceLayout): { width: number; height: number } {
  const { width, height } = layout.printer.sheet;
  if (width >= 200 && width <= 330 && height >= 270 && height <= 490) return { width, height };
  const a4 = sheetNamed('a4')!;
  return { width: a4.width, height: a4.height };
}

/** What lies on the table before the work begins. */
const needs = (joined: boolean, shared: boolean): string =>
  [
    'light table or window, steel rule',
    ...(joined || shared ? ['sharp knife and mat'] : []),
    ...(joined ? ['clear tape, removable tape, opaque film ink'] : []),
  ].join(', ');

/** The page that says how, once a document. */
function guidePage(layouts: readonly FaceLayout[], jobName: string): Paper {
  const size = paperSize(layouts[0]!);
  const paper = new Paper(size.width, size.height);
  const room = size.width - 2 * EDGE;
  let y = size.height - EDGE - 6;
  paper.text(EDGE, y, 'Putting the films together', 20, { bold: true });
  y -= 7;
  if (drawable(jobName)) paper.text(EDGE, y, shorten(jobName, 60), 11, { tint: SOFT });
  const films = layouts.flatMap((face) => face.films);
  const joined = films.some((film) => film.sheets.length > 1);
  const shared = layouts.some((face) => face.cutLines.length > 0);
  const stacked = films.some((film) => film.sheets.some((sheet) => sheet.row > 0));
  const sheets = layouts.reduce((sum, face) => sum + face.pages, 0);
  y -= 6;
  y = paper.paragraph(
    EDGE,
    y,
    `${films.length} ${films.length === 1 ? 'film' : 'films'} on ${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}. You need: ${needs(joined, shared)}.`,
    10,
    room,
  );
  y -= 2.5;
  for (const [i, [head, rest]] of assemblySteps({ joined, shared, stacked }).entries()) {
    paper.text(EDGE, y, `${i + 1}`, 13, { bold: true, tint: ACCENT });
    y = paper.paragraph(EDGE + 8, y, head, 10, room - 8, { bold: true });
    y = paper.paragraph(EDGE + 8, y, rest, 9.5, room - 8) - 1.6;
  }
  y -= 2;
  paper.text(EDGE, y, 'Reading the scales', 11, { bold: true });
  if (joined) {
    paper.text(EDGE + SIGNS, y, 'Signs where two sheets meet', 11, { bold: true });
    drawSigns(paper, EDGE + SIGNS, y - 28.5);
  }
  y -= 19;
  drawVernier(paper, EDGE, y);
  y -= 14;
  y = paper.paragraph(
    EDGE,
    y,
    'Find the one tick that runs through both scales in a straight line and count from the long tick: each is 0.1 mm. Here, with the nose to the right, it is the third towards the nose, so the red one lies 0.3 mm too far towards the nose. Long ticks in line: exact. Scales that stand across the deck are read the same way, from rail to rail.',
    9.5,
    room,
  );
  y -= 4;
  const end = paper.paragraph(EDGE + 2, y - 2, CAUTION, 9.5, room - 4);
  paper.rect(EDGE, end + 1.6, room, y + 3 - end, null, ACCENT, 0.4);
  return paper;
}

/** How many sheets, and where in films.pdf they are. */
function pageWords(layout: FaceLayout, film: FilmLayout, pagesBefore: number): string {
  const first = pagesBefore + film.sheets[0]!.page + 1;
  const count = film.sheets.length;
  if (count > 1) return `${count} sheets, films.pdf pages ${first} to ${first + count - 1}`;
  const others = layout.films.filter((one) => one !== film && one.sheets[0]!.page === film.sheets[0]!.page);
  if (others.length === 0) return `1 sheet, films.pdf page ${first}`;
  return `on films.pdf page ${first} with ${others.map((one) => shorten(inkLabel(one.art), 20)).join(', ')}`;
}

/** One film: its picture with sheets, cuts and tape, its measures, its crossings. */
function filmPage(
  layout: FaceLayout,
  film: FilmLayout,
  pagesBefore: number,
  pictures: GuidePictures,
): Paper[] {
  const size = paperSize(layout);
  const { art, box } = film;
  const room = size.width - 2 * EDGE;
  const pages: Paper[] = [];
  let paper = new Paper(size.width, size.height);
  pages.push(paper);
  let y = size.height - EDGE - 6;
  paper.rect(EDGE, y - 1.5, 9, 8, tintOf(art.hex), SOFT);
  paper.text(
    EDGE + 13,
    y,
    `${layout.face === 'bottom' ? 'Bottom' : 'Top'}: ${shorten(inkLabel(art), 40)}`,
    17,
    { bold: true },
  );
  y -= 6.5;
  paper.text(
    EDGE + 13,
    y,
    `pull ${art.pull} of ${art.pulls} · mesh ${art.meshPerCm} threads/cm · ${pageWords(layout, film, pagesBefore)} · film ${box.width.toFixed(1)} × ${box.height.toFixed(1)} mm`,
    9.5,
    { tint: SOFT },
  );
  y -= 4;
  const left = EDGE;
  const width = Math.min(room, (MOST_HIGH * box.width) / box.height);
  const picture = drawFilm(paper, layout, film, { left, top: y, width }, pictures.whole);
  const seams = jointsOf(film);
  y = picture - 13;
  if (seams.length > 0) {
    drawKey(paper, left, y, layout.printer.overlap);
    y -= 8;
  }
  paper.text(left, y, 'Measure', 11, { bold: true });
  y -= 5.5;
  y = paper.paragraph(left, y, measures(film).join(' '), 9.5, room);
  y -= 3;
  paper.text(left, y, 'Joints', 11, { bold: true });
  y -= 5.5;
  if (seams.length === 0) {
    const alone = layout.cutLines.every((lines) => lines.page !== film.sheets[0]!.page);
    const words = alone
      ? 'This film is one sheet: nothing to join.'
      : 'This film shares its sheet. Cut along the broken line between the films before anything else; there is nothing to join.';
    y = paper.paragraph(left, y, words, 9.5, room);
  }
  for (const [i, { a, seam }] of seams.entries()) {
    const high = jointHeight(seam, room);
    const words = jointWords(film, a, seam);
    // The words and the picture stay together.
    if (y - paper.paragraphHeight(words, 9.5, room) + 2 - high < EDGE) {
      paper = new Paper(size.width, size.height);
      pages.push(paper);
      y = size.height - EDGE - 6;
      paper.text(left, y, `${shorten(inkLabel(art), 40)}: joints, continued`, 11, { bold: true });
      y -= 7;
    }
    y = paper.paragraph(left, y, words, 9.5, room) + 2;
    drawJoint(paper, layout, seam, { x: left, y: y - high, width: room }, pictures.joints[i]!);
    const [before, after] = seamEnds(seam);
    const under = y - high - 3;
    paper.text(left, under, before, 8, { tint: SOFT });
    paper.text(left + room / 2, under, sheetsBeside(a, seam), 8, { tint: SOFT, middle: true });
    paper.text(left + room - paper.measure(after, 8), under, after, 8, { tint: SOFT });
    y -= high + 8;
  }
  return pages;
}

/** Distances between main marks that tell whether the finished film is true. */
function measures(film: FilmLayout): string[] {
  const main = film.marks.filter((mark) => mark.kind === 'registration');
  const ends = main.filter((mark) => Math.abs(mark.y) < 1e-6).sort((a, b) => a.x - b.x);
  const sides = main.filter((mark) => Math.abs(mark.x) < 1e-6).sort((a, b) => a.y - b.y);
  const out: string[] = [];
  const [tail, nose] = [ends[0], ends.at(-1)];
  if (tail && nose && nose !== tail) {
    out.push(`Ring mark at the tail to ring mark at the nose: ${(nose.x - tail.x).toFixed(1)} mm.`);
  }
  const [low, high] = [sides[0], sides.at(-1)];
  if (low && high && low !== high)
    out.push(`Ring mark at one side to ring mark at the other: ${(high.y - low.y).toFixed(1)} mm.`);
  out.push('Ruler on every sheet: 100 mm.');
  return out;
}

/** The ends of a cut as its picture has them, left and right: ticks, since the film's own edge is not to be seen on a sheet. */
const seamEnds = ({ runs }: Seam): readonly [string, string] =>
  runs === 'across' ? ['upper cut tick', 'lower cut tick'] : ['cut tick at the tail', 'cut tick at the nose'];

/** Which sheet lies where in the picture of a joint. */
const sheetsBeside = (a: number, { runs, with: b }: Seam): string =>
  runs === 'across'
    ? `above the cut sheet ${b + 1}, to the nose; below it sheet ${a + 1}, to the tail`
    : `above the cut sheet ${a + 1}, below it sheet ${b + 1}`;

/** What to match and what to touch up at a joint, in a sentence or two. */
function jointWords(film: FilmLayout, a: number, seam: Seam): string {
  const shaped = seam.path.length > 2 ? 'shaped cut' : 'straight cut';
  const head = `Sheets ${a + 1} and ${seam.with + 1}: ${shaped}, ${seam.crossHairs.length} cross-hairs${seam.scales.length > 0 ? ` and ${seam.scales.length === 1 ? 'a scale' : `${seam.scales.length} scales`}` : ''} to match`;
  if (seam.crossings.length === 0) return `${head}; crosses no ink.`;
  const total = seam.crossings.reduce((sum, crossing) => sum + crossing[2], 0);
  const top = film.box.y + film.box.height;
  const places = orderedCrossings(seam)
    .slice(0, MOST_NUMBERS)
    .map(([u, v, length, slant], i) => {
      const at = seam.runs === 'across' ? top - v : u - film.box.x;
      const long = `${length.toFixed(1)}${i === 0 ? ' mm long' : ''}`;
      return `${i + 1} at ${at.toFixed(0)} mm (${long}${slant > ASLANT ? ', aslant' : ''})`;
    });
  const [from] = seamEnds(seam);
  const more =
    seam.crossings.length > MOST_NUMBERS ? `, and ${seam.crossings.length - MOST_NUMBERS} more` : '';
  const times = seam.crossings.length === 1 ? 'once' : `${seam.crossings.length} times`;
  return `${head}; crosses ink ${times}, ${total.toFixed(1)} mm in all. Touch up, from the outer end of the ${from}: ${places.join(', ')}${more}.`;
}

export interface AssemblyOptions {
  readonly jobName: string;
  /** zlib-wrapped deflate, the same bytes everywhere. */
  readonly deflate: (bytes: Uint8Array) => Uint8Array;
  readonly abort?: Abort;
  /** What it shows of each face's films, film by film, where that was packed elsewhere; the others are packed here. */
  readonly pictures?: readonly (readonly GuidePictures[] | undefined)[] | undefined;
}

/**
 * What assembly.pdf consists of, for plain paper: one page of how, then a page a film with its sheets, cuts, tape points, distances to
 * measure and crossings to touch up, where it takes more than one all together. The same layouts give the same bytes; null
 * when `abort` says so.
 */
export function assemblyPages(
  layouts: readonly FaceLayout[],
  { jobName, deflate, abort, pictures }: AssemblyOptions,
): PaperPage[][] | null {
  const out: PaperPage[][] = [];
  if (layouts.length > 0) out.push([guidePage(layouts, jobName).finish(deflate)]);
  let pages = 0;
  for (const [face, layout] of layouts.entries()) {
    for (const [i, film] of layout.films.entries()) {
      if (abort?.aborted) return null;
      const shown = pictures?.[face]?.[i] ?? guidePictures(film, layout.dpi, deflate);
      out.push(filmPage(layout, film, pages, shown).map((paper) => paper.finish(deflate)));
    }
    pages += layout.pages;
  }
  return out;
}
