import { type Affine, apply, filmBox, inkLabel, ringLine, shorten, stencilOf } from '../film/index.ts';
import { ACCENT, Paper, SOFT, tintOf } from '../paper/index.ts';
import { DEFER } from '../press/index.ts';
import { thumbnail } from '../raster/index.ts';
import type { Deflate } from './document.ts';
import type { RunSheet, SheetPull } from './runSheet.ts';

const EDGE = 14;
/** mm of a tick box. */
const TICK = 6.4;
/** Pixels a millimetre of film keeps in the picture. */
const PICTURE_PX_PER_MM = 4;

/** The film in its ink on the first lot's wood, marks included; gives the y below it. */
function picture(paper: Paper, pull: SheetPull, top: number, deflate: Deflate): number {
  const { film, layout } = pull;
  const { box } = film;
  const wide = paper.width - 2 * EDGE;
  const scale = Math.min(wide / box.width, 46 / box.height);
  const high = box.height * scale;
  const left = EDGE + (wide - box.width * scale) / 2;
  const wood = pull.lots[0]?.veneerHex ?? '#e3c9a0';
  paper.rect(left, top - high, box.width * scale, high, tintOf(wood), SOFT, 0.2);
  const factor = Math.max(1, Math.floor(layout.dpi / (25.4 * PICTURE_PX_PER_MM)));
  const small = thumbnail(film.art.mask, factor, filmBox(film));
  const pixel = ((factor * 25.4) / layout.dpi) * scale;
  const [w, h] = [(small.width as number) * pixel, (small.height as number) * pixel];
  paper.stencil(stencilOf(small, deflate), left, top - h, w, h, tintOf(film.art.hex));
  const toPaper: Affine = [scale, 0, 0, scale, left - box.x * scale, top - high - box.y * scale];
  for (const mark of film.marks)
    paper.shapes(
      mark.shapes.map((shape) => {
        const points = shape.points.map(([u, v]) => apply(toPaper, u, v));
        return shape.kind === 'line' ? { ...shape, width: 0.12, points } : { ...shape, points };
      }),
    );
  for (const [u, v] of pull.fine) {
    const [x, y] = apply(toPaper, u, v);
    paper.shapes([ringLine(x, y, 2.6, 1)], [1, 1, 1]);
    paper.shapes([ringLine(x, y, 2.6, 0.5)], ACCENT);
  }
  paper.text(left, top - high - 4, 'tail', 9.5, { tint: SOFT });
  paper.text(left + box.width * scale - paper.measure('nose', 9.5), top - high - 4, 'nose', 9.5, {
    tint: SOFT,
  });
  return top - high - 9;
}

/** One pull, for the press: what, with what, how, on which decks. Goes on a second page when a run is long. */
export function pullPages(sheet: RunSheet, pull: SheetPull, deflate: Deflate): Paper[] {
  const { width, height } = sheet.paper;
  const room = width - 2 * EDGE;
  const { art } = pull.film;
  const pages: Paper[] = [];
  let paper = new Paper(width, height);
  pages.push(paper);
  let y = height - EDGE - 10;
  const need = (mm: number) => {
    if (y - mm >= EDGE) return;
    paper = new Paper(width, height);
    pages.push(paper);
    y = height - EDGE - 8;
    paper.text(EDGE, y, `${art.pull}  ${shorten(inkLabel(art), 40)}, continued`, 16, { bold: true });
    y -= 11;
  };
  paper.rect(EDGE, y - 9, 24, 19, tintOf(art.hex), SOFT, 0.4);
  paper.text(EDGE + 30, y, `${art.pull}  ${shorten(inkLabel(art), 22)}`, 32, { bold: true });
  paper.text(
    EDGE + 30,
    y - 8,
    `${pull.layout.face === 'bottom' ? 'Bottom' : 'Top'}, pull ${art.pull} of ${art.pulls} · ${pull.kind} ink`,
    13,
    { tint: SOFT },
  );
  y = picture(paper, pull, y - 14, deflate) - 4;
  const columns = 3;
  pull.settings.forEach(([label, value], i) => {
    const column = i % columns;
    const x = EDGE + (column * room) / columns;
    if (column === 0 && i > 0) y -= 11.6;
    const most = room / columns - 3;
    const size = Math.min(17, (17 * most) / Math.max(most, paper.measure(value, 17, true)));
    paper.text(x, y, value, size, { bold: true });
    paper.text(x, y - 4.6, label, 10, { tint: SOFT });
  });
  y -= 13;
  for (const warning of pull.warnings) {
    need(9);
    paper.text(EDGE, y, '!', 14, { bold: true, tint: ACCENT });
    y = paper.paragraph(EDGE + 6, y, warning, 10.5, room - 6, { tint: ACCENT }) - 0.6;
  }
  y -= 2;
  for (const step of pull.steps) {
    need(8);
    paper.rect(EDGE, y - 0.9, 4.6, 4.6, null, SOFT, 0.35);
    y = paper.paragraph(EDGE + 8, y, step, 11.5, room - 8) - 0.9;
  }
  y -= 3;
  need(34);
  paper.text(EDGE, y, 'Register', 14, { bold: true });
  if (pull.earlier.length > 0)
    paper.text(EDGE + 28, y, shorten(`last time: ${pull.earlier.at(-1)}`, 90), 9.5, { tint: SOFT });
  y -= 5.5;
  const heads = [
    'test',
    'tail clamp along',
    'tail clamp across',
    'nose clamp along',
    'nose clamp across',
    'left over',
  ];
  const cell = room / heads.length;
  heads.forEach((words, i) => {
    paper.text(EDGE + i * cell + 1, y, words, 9, { tint: SOFT });
  });
  y -= 1.6;
  for (let row = 0; row < 3; row++)
    for (let i = 0; i < heads.length; i++) {
      paper.rect(EDGE + i * cell, y - (row + 1) * 7, cell, 7, null, SOFT, 0.25);
      if (i === 0) paper.text(EDGE + 2, y - row * 7 - 5, String(row + 1), 12);
    }
  y -= 3 * 7 + 7;
  need(20);
  paper.text(EDGE, y, 'Decks', 14, { bold: true });
  paper.text(EDGE + 24, y, 'tick when printed, cross when spoiled', 10, { tint: SOFT });
  y -= 9;
  // Two lots side by side while their boxes fit.
  const pitch = TICK + 1;
  const label = 40;
  const most = Math.max(0, ...pull.lots.map((lot) => lot.start));
  const sides = label + most * pitch <= room / 2 && pull.lots.length > 1 ? 2 : 1;
  const wide = room / sides;
  const perRow = Math.max(1, Math.floor((wide - label) / pitch));
  for (let at = 0; at < pull.lots.length; at += sides) {
    const lots = pull.lots.slice(at, at + sides);
    const tall = Math.max(...lots.map((lot) => Math.max(9.6, Math.ceil(lot.start / perRow) * pitch + 2)));
    need(tall);
    lots.forEach((lot, side) => {
      const x = EDGE + side * wide;
      paper.rect(x, y - 1.6, 6, 6.4, tintOf(lot.veneerHex), SOFT, 0.25);
      paper.rect(x + 6, y - 1.6, 4, 6.4, tintOf(lot.inkHex), SOFT, 0.25);
      paper.text(x + 12, y + 1.4, shorten(lot.veneer, 14), 10.5, { bold: true });
      paper.text(x + 12, y - 2.6, shorten(`${lot.good} good · ${lot.ink}`, 19), 8.5, { tint: SOFT });
      for (let i = 0; i < lot.start; i++) {
        const bx = x + label + (i % perRow) * pitch;
        const by = y - 1.9 - Math.floor(i / perRow) * pitch;
        const spare = i >= lot.good;
        paper.rect(bx, by, TICK, TICK, spare ? [0.93, 0.92, 0.9] : null, SOFT, 0.35);
        paper.text(bx + TICK / 2, by + 2.2, spare ? 's' : String(i + 1), 8, {
          tint: [0.62, 0.6, 0.57],
          middle: true,
        });
      }
    });
    y -= tall;
  }
  const words = [...pull.cautions, DEFER].join(' ');
  need(11);
  paper.paragraph(EDGE, y - 1, words, 8.2, room, { tint: ACCENT });
  return pages;
}
