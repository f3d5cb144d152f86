import { expect, test } from 'vitest';
import { deckTemplate } from '../../../core/deck/index.ts';
import { type ArtFacts, fitBox, newJob, placeArt } from '../../../core/job/index.ts';

const deck = deckTemplate('popsicle-8.25');
if (!deck) throw new Error('The usual template is missing.');
const job = newJob({ name: 'Try', deck });
const facts = (over: Partial<ArtFacts> = {}): ArtFacts => ({
  name: 'a.png',
  hash: 'a'.repeat(64),
  mediaType: 'image/png',
  widthPx: 3000,
  heightPx: 1000,
  stated: null,
  ground: null,
  ...over,
});

test('contain stays inside the printable area and touches it; cover leaves none of it free', () => {
  const box = fitBox(job, 'bottom', 'surface');
  for (const fit of ['contain', 'cover'] as const) {
    const placed = placeArt(job, 'bottom', facts(), { fit, wrap: 'surface', artDpi: null });
    if (!placed.ok) throw new Error(placed.reason);
    const { width, height, x, y } = placed.value.art;
    expect(width / height).toBeCloseTo(3, 9);
    const slack = [width / box.width, height / box.height];
    expect(fit === 'contain' ? Math.max(...slack) : Math.min(...slack)).toBeCloseTo(1, 9);
    expect(x).toBeCloseTo(box.x + box.width / 2, 9);
    expect(y).toBeCloseTo(box.y + box.height / 2, 9);
  }
});

test('actual size is the size the file states, or its dots at the given dpi: an inch is 25.4 mm', () => {
  const options = { fit: 'actual', wrap: 'plan', artDpi: null } as const;
  const stated = placeArt(job, 'top', facts({ stated: { width: 90, height: 30 } }), options);
  expect(stated.ok && stated.value.art.width).toBe(90);
  const atDpi = placeArt(job, 'top', facts(), { ...options, artDpi: 300 });
  expect(atDpi.ok && atDpi.value.art.width).toBeCloseTo(254, 9);
});

test('art without a size is refused rather than guessed', () => {
  const refused = placeArt(job, 'bottom', facts(), { fit: 'actual', wrap: 'surface', artDpi: null });
  expect(refused).toMatchObject({
    ok: false,
    kind: 'input',
    mend: expect.stringMatching(/--fit.*--art-dpi/),
  });
});

test('two pieces of one name get ids of their own', () => {
  const once = placeArt(job, 'bottom', facts(), { fit: 'contain', wrap: 'surface', artDpi: null });
  if (!once.ok) throw new Error(once.reason);
  const again = placeArt(once.value.job, 'bottom', facts(), {
    fit: 'contain',
    wrap: 'surface',
    artDpi: null,
  });
  expect(again.ok && again.value.job.faces.bottom.art.map((p) => p.id)).toEqual(['a', 'a-2']);
});
