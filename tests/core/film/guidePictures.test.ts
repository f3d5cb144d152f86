import { expect, test } from 'vitest';
import { seamPicture } from '../../../core/film/guidePictures.ts';
import { jointsOf, layOutFace } from '../../../core/film/index.ts';
import { turnLeft } from '../../../core/film/turn.ts';
import { seamStrip } from '../../../core/film/window.ts';
import { equal, inkCount, thumbnail } from '../../../core/raster/index.ts';
import { request, testFilms } from './testFace.ts';

test('a joint made smaller and turned is what it is turned and made smaller', () => {
  const outcome = layOutFace(
    request(testFilms(72), {
      sheet: { name: 'custom', width: 160, height: 180 },
    }),
  );
  if (!outcome.ok) throw new Error(outcome.reason);
  const ways = new Set<string>();
  let ink = 0;
  for (const film of outcome.value.films)
    for (const { seam } of jointsOf(film)) {
      const strip = seamStrip(film, seam);
      const lying = seam.runs === 'across' ? turnLeft(strip) : strip;
      for (const factor of [1, 2, 3, 7, 32]) {
        const small = seamPicture(film, seam, factor);
        expect(equal(small, thumbnail(lying, factor)), `${seam.runs} by ${factor}`).toBe(true);
        ink += inkCount(small);
      }
      ways.add(seam.runs);
    }
  expect([...ways].sort()).toEqual(['across', 'along']);
  expect(ink).toBeGreaterThan(500);
});
