import { execFileSync } from 'node:child_process';
import { zlibSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { layOutFace } from '../../../core/film/index.ts';
import { assemblyPdf } from '../../../core/pdf/index.ts';
import { blankMask, draw, maskOf, thumbnail } from '../../../core/raster/index.ts';
import { paint, request, testFilms } from '../film/testFace.ts';
import { TOOLS, withPdf } from './renderers.ts';

const options = { jobName: 'Night Heron', deflate: (bytes: Uint8Array) => zlibSync(bytes, { level: 6 }) };
const present = (() => {
  try {
    execFileSync('pdftotext', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

function laid(...args: Parameters<typeof request>) {
  const outcome = layOutFace(request(...args));
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

describe('assembly.pdf', () => {
  const films = testFilms(72);

  test.skipIf(!present || !TOOLS.qpdf)(
    'tells each film, its pages, every joint and the true length to measure (needs poppler and qpdf)',
    async () => {
      const layout = laid(films, { named: 'letter' });
      const pdf = await assemblyPdf([layout], options);
      expect(Buffer.compare(Buffer.from(pdf), Buffer.from(await assemblyPdf([layout], options)))).toBe(0);
      withPdf(pdf, (_render, path) => {
        expect(execFileSync('qpdf', ['--check', path]).toString()).toMatch(
          /No syntax or stream encoding errors/,
        );
        const text = execFileSync('pdftotext', ['-layout', path, '-']).toString();
        // A film's text runs from its heading to the next film's; it may take more than one page.
        const [guide, ...pages] = text.split(/\f(?=\s*Bottom: )/);
        expect(guide).toMatch(/Night Heron/);
        const sheets = layout.films.reduce((sum, film) => sum + film.sheets.length, 0);
        expect(guide).toContain(`5 films on ${sheets} sheets`);
        expect(guide).toMatch(/away from you/);
        let first = 1;
        for (const [i, film] of layout.films.entries()) {
          expect(pages[i]).toContain(`Bottom: ${film.art.inkName}`);
          expect(pages[i]).toContain(`films.pdf pages ${first} to ${first + film.sheets.length - 1}`);
          first += film.sheets.length;
          for (let s = 1; s < film.sheets.length; s++)
            expect(pages[i]).toContain(`Sheets ${s} and ${s + 1}:`);
          const main = film.marks.filter((mark) => mark.kind === 'registration');
          const length = Math.max(...main.map((m) => m.x)) - Math.min(...main.map((m) => m.x));
          expect(pages[i]).toContain(`${length.toFixed(1)} mm`);
        }
      });
    },
  );

  test.skipIf(!present)(
    'tells to join sheets only where there are some, and to cut films apart only where they share one (needs poppler)',
    async () => {
      const guideOf = async (printer: Parameters<typeof request>[1], shareSheets = false) => {
        const outcome = layOutFace({ ...request(films, printer), options: { shareSheets } });
        if (!outcome.ok) throw new Error(outcome.reason);
        const pdf = await assemblyPdf([outcome.value], options);
        let guide = '';
        withPdf(pdf, (_render, path) => {
          guide = execFileSync('pdftotext', ['-l', '1', '-layout', path, '-']).toString();
        });
        return guide;
      };
      const JOIN = /Lay sheets 1 and 2/;
      const sheets = await guideOf({ named: 'letter' });
      expect(sheets).toMatch(JOIN);
      expect(sheets).not.toMatch(/nothing is taped|Cut films apart/);
      const whole = await guideOf({ sheet: { name: 'custom', width: 330, height: 900 } });
      expect(whole).toMatch(/nothing is taped/);
      expect(whole).not.toMatch(/Lay sheets 1 and 2|Cut films apart|clear tape/);
      const shared = await guideOf({ sheet: { name: 'custom', width: 610, height: 900 } }, true);
      expect(shared).toMatch(/Cut films apart/);
      expect(shared).not.toMatch(JOIN);
    },
  );

  test.skipIf(!present)(
    'a film higher than long, in two sheets one above the other, keeps its picture and words on its page (needs poppler)',
    async () => {
      const high = films.slice(0, 2).map((film) => {
        const mask = blankMask(film.mask.width, film.mask.height);
        paint(mask, film.box, film.dpi, film.box, (u, v) => Math.abs(u) < 30 && Math.abs(v) < 90);
        return { ...film, pulls: 2, mask };
      });
      const layout = laid(high, { sheet: { name: 'custom', width: 130, height: 150 } });
      expect(layout.films[0]!.box.height / layout.films[0]!.box.width).toBeGreaterThan(1.5);
      expect(layout.films[0]!.sheets.map(({ row }) => row)).toEqual([0, 1]);
      withPdf(await assemblyPdf([layout], options), (_render, path) => {
        const text = execFileSync('pdftotext', ['-bbox', path, '-']).toString();
        const [guide, ...pages] = text.split('<page ').slice(1);
        expect(guide).toMatch(/>above</);
        expect(pages.length).toBe(2);
        for (const page of pages) {
          const height = Number(/height="([\d.]+)"/.exec(page)![1]);
          const feet = [...page.matchAll(/yMax="([\d.-]+)"/g)].map(([, y]) => Number(y));
          expect(feet.length).toBeGreaterThan(40);
          for (const foot of feet) expect(foot).toBeLessThan(height);
          expect(page).toMatch(/>Measure</);
        }
      });
    },
  );

  test('names in any script, a roll, and a face without ink make a guide all the same', async () => {
    const odd = films.slice(0, 2).map((film) => ({ ...film, inkName: '夜の青 🦩 “key”' }));
    const layout = laid(odd, { sheet: { name: 'custom', width: 300, height: 900 } });
    const pdf = await assemblyPdf([layout], { ...options, jobName: 'Ночная цапля '.repeat(30) });
    expect(Buffer.from(pdf).subarray(0, 5).toString()).toBe('%PDF-');
    const none = await assemblyPdf([], options);
    expect(Buffer.from(none).subarray(0, 5).toString()).toBe('%PDF-');
    expect((await assemblyPdf([layout], { ...options, abort: { aborted: true } })).length).toBe(0);
  });

  test('a picture of a film keeps its finest lines', () => {
    const small = thumbnail(maskOf('#....... / #....... / ........ / .....#.. / ........'), 3);
    expect(draw(small)).toBe('#.. / .#.');
  });
});
