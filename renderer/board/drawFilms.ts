import type { FilmShown } from '../state/index.ts';
import { at, type Pen, slip } from './pen.ts';

/** One film's sheets over the deck: windows, shared strips, cuts, where a cut crosses ink, and register marks. */
export function drawFilm(pen: Pen, film: FilmShown, say: (mm: number) => string): void {
  const { ctx, colours } = pen;
  const rect = (b: { x: number; y: number; width: number; height: number }) => {
    const p = at(pen, b.x, b.y + b.height);
    return [p.x, p.y, b.width * pen.view.scale, b.height * pen.view.scale] as const;
  };
  ctx.save();
  film.sheets.forEach((sheet, i) => {
    const [x, y, w, h] = rect(sheet.window);
    ctx.fillStyle = i % 2 === 0 ? 'rgba(255, 255, 255, 0.16)' : 'rgba(255, 255, 255, 0.06)';
    ctx.fillRect(x, y, w, h);
    ctx.strokeStyle = colours.paper;
    ctx.lineWidth = 4;
    ctx.setLineDash([]);
    ctx.strokeRect(x, y, w, h);
    ctx.strokeStyle = colours.ink;
    ctx.lineWidth = 1.5;
    ctx.setLineDash(i % 2 === 0 ? [] : [7, 4]);
    ctx.strokeRect(x, y, w, h);
  });
  ctx.setLineDash([]);
  for (const sheet of film.sheets)
    for (const path of sheet.cuts) {
      ctx.beginPath();
      path.forEach(([s, t], i) => {
        const p = at(pen, s, t);
        if (i === 0) ctx.moveTo(p.x, p.y);
        else ctx.lineTo(p.x, p.y);
      });
      ctx.strokeStyle = colours.paper;
      ctx.lineWidth = 4.5;
      ctx.stroke();
      ctx.strokeStyle = colours.accent;
      ctx.lineWidth = 2;
      ctx.stroke();
    }
  for (const sheet of film.sheets)
    for (const [s, t] of sheet.crossings) {
      const p = at(pen, s, t);
      ctx.beginPath();
      ctx.moveTo(p.x - 5, p.y - 5);
      ctx.lineTo(p.x + 5, p.y + 5);
      ctx.moveTo(p.x + 5, p.y - 5);
      ctx.lineTo(p.x - 5, p.y + 5);
      ctx.strokeStyle = colours.warn;
      ctx.lineWidth = 2.5;
      ctx.stroke();
    }
  ctx.beginPath();
  for (const mark of film.marks) {
    if (mark.kind !== 'registration' && mark.kind !== 'hole') continue;
    const p = at(pen, mark.x, mark.y);
    ctx.moveTo(p.x - 8, p.y);
    ctx.lineTo(p.x + 8, p.y);
    ctx.moveTo(p.x, p.y - 8);
    ctx.lineTo(p.x, p.y + 8);
    ctx.moveTo(p.x + 5, p.y);
    ctx.arc(p.x, p.y, 5, 0, 7);
  }
  // Toner on a pale film, whatever the bench's own colours are.
  ctx.strokeStyle = '#fffaf0';
  ctx.lineWidth = 4;
  ctx.stroke();
  ctx.strokeStyle = '#2a2118';
  ctx.lineWidth = 1.4;
  ctx.stroke();
  ctx.restore();
  film.sheets.forEach((sheet, i) => {
    const [x, y, w, h] = rect(sheet.window);
    const size = `${say(sheet.window.width).replace(/ .*/, '')} × ${say(sheet.window.height)}`;
    const text = `Sheet ${i + 1}${w > 210 ? `: ${size}` : ''}`;
    slip(pen, text, x + w / 2, y + h + 13, { size: 12 });
  });
}
