import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { zlibSync } from 'fflate';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { boundsOf } from '../../../core/film/bounds.ts';
import { filmMask, layOutFace } from '../../../core/film/index.ts';
import { separationsPdf } from '../../../core/pdf/index.ts';
import { colorantNames, utf8 } from '../../../core/pdf/separationsPdf.ts';
import { request, testFilms } from '../film/testFace.ts';
import { TOOLS, withPdf } from './renderers.ts';

const options = { jobName: 'Night Heron', deflate: (bytes: Uint8Array) => zlibSync(bytes, { level: 6 }) };

describe('separations.pdf', () => {
  test('colorants are named as the inks; names that mean something else, or come twice, are told apart', () => {
    expect(colorantNames(['coral', 'coral', 'All', 'none', '  ', 'Grün'])).toEqual([
      'coral',
      'coral 2',
      'All ink',
      'none ink',
      'ink',
      'Grün',
    ]);
    // UTF-8 of ü is C3 BC (Unicode standard).
    expect(utf8('ü')).toBe('\u00c3\u00bc');
    expect(utf8('\ud800')).toBe('\u00ef\u00bf\u00bd');
  });

  test.skipIf(!TOOLS.ghostscript || !TOOLS.qpdf)(
    'an independent splitter’s plates equal the films (needs ghostscript and qpdf)',
    async () => {
      const dpi = 100;
      const films = testFilms(dpi).map((film, i) =>
        i === 2 ? { ...film, inkName: 'Koralle #5 (grün)' } : film,
      );
      const outcome = layOutFace(request(films));
      if (!outcome.ok) throw new Error(outcome.reason);
      const layout = outcome.value;
      const pdf = await separationsPdf([layout], options);
      expect(Buffer.compare(Buffer.from(pdf), Buffer.from(await separationsPdf([layout], options)))).toBe(0);
      const plates = withPdf(pdf, (_render, path) => {
        expect(execFileSync('qpdf', ['--check', path]).toString()).toMatch(
          /No syntax or stream encoding errors/,
        );
        const dir = dirname(path);
        execFileSync(
          'gs',
          [
            '-q',
            '-dNOPAUSE',
            '-dBATCH',
            '-dSAFER',
            '-sDEVICE=tiffsep',
            '-dMaxSpots=8',
            `-r${dpi}`,
            `-sOutputFile=${join(dir, 'plate.tif')}`,
            path,
          ],
          { stdio: 'ignore' },
        );
        const files = readdirSync(dir).filter((name) => name.startsWith('plate') && name.includes('('));
        return Promise.all(
          files.map(async (name) => {
            const { data, info } = await sharp(readFileSync(join(dir, name)))
              .greyscale()
              .raw()
              .toBuffer({ resolveWithObject: true });
            return { name, data, width: info.width, height: info.height };
          }),
        );
      });
      const left = Math.min(...layout.films.map((film) => film.offsetPx.x as number));
      const top = Math.min(...layout.films.map((film) => film.offsetPx.y as number));
      for (const [i, film] of layout.films.entries()) {
        const plate = (await plates).find(({ name }) =>
          i === 2 ? name.includes('Koralle') : name.includes(`(${film.art.inkName})`),
        );
        expect(plate, film.art.inkName).toBeDefined();
        const mask = filmMask(film);
        const [dx, dy] = [(film.offsetPx.x as number) - left, (film.offsetPx.y as number) - top];
        const near = film.marks.flatMap((mark) => mark.shapes).map((shape) => boundsOf([shape])!);
        const scale = dpi / 25.4;
        const marked = (x: number, y: number) => {
          const u = film.box.x + (x + 0.5) / scale;
          const v = film.box.y + film.box.height - (y + 0.5) / scale;
          return near.some(
            (b) => u > b.x - 0.6 && u < b.x + b.width + 0.6 && v > b.y - 0.6 && v < b.y + b.height + 0.6,
          );
        };
        let [missing, extra, ink] = [0, 0, 0];
        for (let y = 0; y < (mask.height as number); y++) {
          for (let x = 0; x < (mask.width as number); x++) {
            const want = (mask.data[y * mask.stride + (x >> 5)]! >>> (x & 31)) & 1;
            const got = plate!.data[(y + dy) * plate!.width + x + dx]! < 128 ? 1 : 0;
            ink += want;
            if (want === 1 && got === 0) missing++;
            if (want === 0 && got === 1 && !marked(x, y)) extra++;
          }
        }
        expect({ film: film.art.inkName, missing, extra }).toEqual({
          film: film.art.inkName,
          missing: 0,
          extra: 0,
        });
        expect(ink).toBeGreaterThan(1000);
      }
    },
    60_000,
  );
});
