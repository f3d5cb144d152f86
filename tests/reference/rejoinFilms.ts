import type { FilmManifest } from '../../core/film/index.ts';
import { type Bits, pagePictures, windowPixels } from './filmPages.ts';

type Film = FilmManifest['films'][number];

/** A film put together again from the pictures of its pages, by films.json alone; `dir` holds what is needed on the way. */
export async function rejoined(pdf: string, manifest: FilmManifest, film: Film, dir: string): Promise<Bits> {
  const { dpi } = manifest;
  const width = Math.round((film.box.width * dpi) / 25.4);
  const height = Math.round((film.box.height * dpi) / 25.4);
  const whole: Bits = { width, height, at: new Uint8Array(width * height) };
  for (const sheet of film.sheets) {
    const at = windowPixels(film, sheet, dpi);
    if (at.noise > 1e-6) throw new Error(`The window on page ${sheet.page} is not on whole pixels.`);
    const [a, b] = sheet.filmToPage as [number, number];
    const turned = Math.abs(b) > Math.abs(a);
    const [w, h] = turned ? [at.height, at.width] : [at.width, at.height];
    // Films that share a page lie there in the order films.json has them.
    const before = manifest.films
      .filter((one) => one.sheets.some((s) => s.page === sheet.page))
      .indexOf(film);
    const picture = (await pagePictures(pdf, sheet.page, dir))[before];
    if (picture?.width !== w || picture.height !== h)
      throw new Error(`The picture on page ${sheet.page} is not as large as its window.`);
    for (let y = 0; y < at.height; y++) {
      const row = (y + at.y) * width + at.x;
      for (let x = 0; x < at.width; x++)
        whole.at[row + x]! |= turned ? picture.at[(at.width - 1 - x) * w + y]! : picture.at[y * w + x]!;
    }
  }
  return whole;
}
