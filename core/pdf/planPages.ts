import { inkLabel, shorten } from '../film/index.ts';
import { ACCENT, Paper, SOFT, type Tint, tintOf } from '../paper/index.ts';
import { clockOf, makeCalendar, planScale, WEEKDAYS } from '../press/index.ts';
import type { RunSheet } from './runSheet.ts';

const EDGE = 14;
const NAME = 40;
const ROW = 8.5;

/** Bars by kind of work: dark for hands, pale for waiting. */
const TINTS: Readonly<Record<string, Tint>> = {
  film: [0.45, 0.45, 0.48],
  screen: [0.2, 0.42, 0.5],
  press: ACCENT,
  drying: [0.85, 0.82, 0.76],
  coat: [0.55, 0.36, 0.12],
};

/** The run as bars over days, and as a list of what to do when. */
export function planPages(sheet: RunSheet): Paper[] {
  const { plan, hours, firstWeekday } = sheet;
  const calendar = makeCalendar(hours, firstWeekday);
  if (!plan || !calendar || plan.tasks.length === 0) return [];
  const { width, height } = sheet.paper;
  const pages: Paper[] = [];
  let paper = new Paper(width, height);
  pages.push(paper);
  let y = height - EDGE - 8;
  paper.text(EDGE, y, 'The plan', 22, { bold: true });
  y -= 7;
  const over = Math.max(0, Math.ceil((plan.end / Math.max(plan.atLeast, 1) - 1) * 100));
  const best =
    over === 0
      ? 'No plan with these times and hours ends sooner'
      : `No plan with these times and hours ends more than ${over} % sooner`;
  y = paper.paragraph(
    EDGE,
    y,
    `Done on day ${Math.ceil(plan.end / 1440)} at ${clockOf(plan.end)}, drying included. ${best}. Change times, hours, frames or racks in the studio and print this page again.`,
    10,
    width - 2 * EDGE,
  );
  y -= 6;
  const { at, days } = planScale(calendar, plan.end);
  const left = EDGE + NAME;
  const room = width - EDGE - left;
  const rows = [...new Set(plan.tasks.map((t) => t.row))];
  const bottom = y - rows.length * ROW;
  for (const day of days) {
    const [x0, x1] = [left + day.from * room, left + day.to * room];
    if (day.work) {
      const [a, b] = day.work;
      paper.rect(left + a * room, bottom, (b - a) * room, y - bottom, [0.97, 0.95, 0.9]);
    }
    paper.rect(x0, bottom, 0.15, y - bottom + 5, SOFT);
    if (x1 - x0 > 9) paper.text(x0 + 1.2, y + 2, `${day.name} ${day.day + 1}`, 9, { bold: true });
  }
  const placed = new Map(plan.placed.map((p) => [p.id, p]));
  const hexOf = new Map(
    sheet.pulls.map(({ film, layout }) => [`${layout.face} ${inkLabel(film.art)}`, film.art.hex]),
  );
  rows.forEach((row, i) => {
    const top = y - i * ROW;
    paper.rect(EDGE, top - ROW + 0.3, width - 2 * EDGE, 0.1, [0.85, 0.83, 0.8]);
    const hex = hexOf.get(row);
    if (hex) paper.rect(EDGE, top - ROW + 2, 4, 4.5, tintOf(hex), SOFT, 0.15);
    paper.text(EDGE + 6, top - ROW + 3, shorten(row, 20), 9.5);
    for (const task of plan.tasks.filter((t) => t.row === row)) {
      const p = placed.get(task.id);
      if (!p) continue;
      const x = left + at(p.start) * room;
      const wide = Math.max(0.5, (at(p.end) - at(p.start)) * room);
      const low = task.work === 'drying' ? 2.6 : 1.4;
      paper.rect(x, top - ROW + low, wide, ROW - 2 * low, TINTS[task.work] ?? SOFT, [1, 1, 1], 0.1);
    }
  });
  y = bottom - 6;
  let x = EDGE;
  for (const [work, words] of [
    ['film', 'film'],
    ['screen', 'screen'],
    ['press', 'press'],
    ['coat', 'clear coat'],
    ['drying', 'drying'],
  ] as const) {
    paper.rect(x, y - 0.4, 5, 3, TINTS[work] ?? SOFT);
    paper.text(x + 7, y, words, 9.5);
    x += 13 + paper.measure(words, 9.5);
  }
  y -= 10;
  const hands = plan.tasks
    .filter((t) => t.attended)
    .map((task) => ({ task, at: placed.get(task.id) }))
    .filter((e) => e.at !== undefined)
    .sort((a, b) => (a.at?.start ?? 0) - (b.at?.start ?? 0));
  // Two columns of ticks.
  const column = (width - 2 * EDGE - 8) / 2;
  let side = 0;
  const top = y;
  let from = top;
  let day = -1;
  const next = (need: number) => {
    if (y - need >= EDGE) return;
    if (side === 0) side = 1;
    else {
      side = 0;
      paper = new Paper(width, height);
      pages.push(paper);
      from = height - EDGE - 8;
    }
    y = from;
  };
  for (const { task, at: p } of hands) {
    if (!p) continue;
    const today = Math.floor(p.start / 1440);
    if (today !== day) {
      day = today;
      next(16);
      y -= 2;
      paper.text(
        EDGE + side * (column + 8),
        y,
        `${WEEKDAYS[(firstWeekday + day) % 7]}, day ${day + 1}`,
        11.5,
        { bold: true },
      );
      y -= 6.4;
    }
    next(6);
    const cx = EDGE + side * (column + 8);
    paper.rect(cx, y - 0.5, 3.6, 3.6, task.finishedAt === undefined ? null : SOFT, SOFT, 0.3);
    paper.text(cx + 6, y, clockOf(p.start), 10.5, { tint: SOFT });
    paper.text(cx + 18, y, shorten(task.name, 46), 10.5);
    y -= 5.8;
  }
  return pages;
}
