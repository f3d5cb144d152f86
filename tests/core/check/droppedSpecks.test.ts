import { expect, test } from 'vitest';
import type { FaceFacts } from '../../../core/check/input.ts';
import { droppedSpecks } from '../../../core/check/rules/droppedSpecks.ts';
import { deckTemplate } from '../../../core/deck/index.ts';
import { droppedPlaces } from '../../../core/droppedPlaces.ts';
import { finishFace } from '../../../core/finishFace.ts';
import { inkFrom, newJob } from '../../../core/job/index.ts';
import { complement, draw, maskOf } from '../../../core/raster/index.ts';

const coral = inkFrom({ name: 'Coral', hex: '#e8613c' }, []);
const blue = inkFrom({ name: 'Blue', hex: '#1b2440' }, [coral]);
const fresh = newJob({ name: 'Try', deck: deckTemplate('popsicle-8.25')! });
const job = {
  ...fresh,
  faces: { ...fresh.faces, bottom: { ...fresh.faces.bottom, inks: [coral, blue], smallest: 3 } },
};

test('specks and holes that are dropped are told by ink, with the place of the largest; at 25.4 dpi a point is a mm', () => {
  // Coral with a bare hole of one point, two blue specks in it of one and two points, and blue that stays.
  const masks = [
    maskOf('######### / ##.##.### / #####.### / #########'),
    maskOf('......... / .....#... / .....#... / .........'),
  ];
  const blank = maskOf('......... / ......... / ......... / .........');
  const dropped = finishFace(masks, complement(blank), 3);
  expect(draw(masks[0]!)).toBe(draw(complement(blank)));
  const box = { x: -100, y: 10, width: 9, height: 4 };
  const places = droppedPlaces(job.faces.bottom, { box, dpi: 25.4 }, dropped);
  expect(places).toEqual([
    { ink: 'blue', s: -94.5, t: 12.5, mm2: 2 },
    { ink: null, s: -97.5, t: 12.5, mm2: 1 },
  ]);
  const facts = { face: 'bottom', dropped: places } as unknown as FaceFacts;
  const told = droppedSpecks(job, facts);
  expect(told.map((p) => [p.ink, p.what, p.at])).toEqual([
    [null, 'One bare hole was filled: smaller than 3.0 mm², which no mesh holds.', { s: -97.5, t: 12.5 }],
    [
      'blue',
      'One speck of Blue was dropped: smaller than 3.0 mm², which no mesh holds.',
      { s: -94.5, t: 12.5 },
    ],
  ]);
  expect(told.every((p) => p.severity === 'note' && p.mend.length > 0)).toBe(true);
  expect(droppedSpecks(job, { face: 'bottom' } as unknown as FaceFacts)).toEqual([]);
});
