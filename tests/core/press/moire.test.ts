import { expect, test } from 'vitest';
import { beatsOf, moire, moirePicture } from '../../../core/press/index.ts';

/**
 * Lowest beats of a mesh at 0° and a halftone, lines per cm, mesh orders to 1 and halftone orders to 5. Computed apart
 * from this program by the vector view of I. Amidror, The Theory of the Moiré Phenomenon.
 */
const LATTICES = [
  {
    mesh: 120,
    lpi: 76.2,
    angle: 0.0,
    beats: [0.0, 30.0, 42.42641],
    orders: [
      [
        [-1, 0],
        [-4, 0],
      ],
      [
        [-1, 0],
        [-3, 0],
      ],
      [
        [-1, 0],
        [-3, -1],
      ],
    ],
  },
  {
    mesh: 120,
    lpi: 76.2,
    angle: 7.5,
    beats: [14.37357, 15.69675, 19.78359],
    orders: [
      [
        [-1, 0],
        [-4, 1],
      ],
      [
        [-1, 0],
        [-4, 0],
      ],
      [
        [-1, -1],
        [-4, -3],
      ],
    ],
  },
  {
    mesh: 120,
    lpi: 76.2,
    angle: 22.5,
    beats: [8.396989, 16.78178, 18.35616],
    orders: [
      [
        [-1, -1],
        [-5, -2],
      ],
      [
        [-1, 0],
        [-4, 2],
      ],
      [
        [-1, 0],
        [-4, 1],
      ],
    ],
  },
  {
    mesh: 120,
    lpi: 81.28,
    angle: 22.5,
    beats: [3.348141, 20.36681, 22.07741],
    orders: [
      [
        [-1, -1],
        [-5, -2],
      ],
      [
        [-1, 0],
        [-3, 1],
      ],
      [
        [-1, 0],
        [-4, 1],
      ],
    ],
  },
  {
    mesh: 120,
    lpi: 76.2,
    angle: 45.0,
    beats: [7.279221, 19.70563, 25.38023],
    orders: [
      [
        [-1, 0],
        [-3, 3],
      ],
      [
        [-1, -1],
        [-5, 0],
      ],
      [
        [-1, 0],
        [-3, 2],
      ],
    ],
  },
  {
    mesh: 90,
    lpi: 45.72,
    angle: 22.5,
    beats: [7.025876, 11.25756, 17.81172],
    orders: [
      [
        [-1, 0],
        [-5, 2],
      ],
      [
        [-1, 0],
        [-4, 2],
      ],
      [
        [-1, 0],
        [-5, 1],
      ],
    ],
  },
  {
    mesh: 90,
    lpi: 45.72,
    angle: 45.0,
    beats: [11.82338, 12.76002, 13.63247],
    orders: [
      [
        [-1, 0],
        [-4, 4],
      ],
      [
        [-1, 0],
        [-4, 3],
      ],
      [
        [-1, 0],
        [-3, 3],
      ],
    ],
  },
  {
    mesh: 77,
    lpi: 45.72,
    angle: 22.5,
    beats: [6.589901, 11.49892, 12.02689],
    orders: [
      [
        [-1, 0],
        [-4, 2],
      ],
      [
        [-1, 0],
        [-4, 1],
      ],
      [
        [-1, -1],
        [-5, -2],
      ],
    ],
  },
] as const;

test.each(LATTICES)('mesh $mesh/cm with $lpi lpi at $angle°', ({ mesh, lpi, angle, beats }) => {
  const found = beatsOf({ meshPerCm: mesh, meshAngleDeg: 0, lpi, screenAngleDeg: angle });
  // Mirror images of a beat are one pattern to the eye: each frequency once.
  const once: number[] = [];
  for (const { perCm } of found) if (!once.some((f) => Math.abs(f - perCm) < 1e-6)) once.push(perCm);
  for (const [i, beat] of beats.entries()) expect(once[i]).toBeCloseTo(beat, 4);
});

test.each([
  // f₁, f₂ lines/cm, degrees between, period mm: √(f₁² + f₂² − 2f₁f₂cos) worked by hand.
  [30, 28, 10, 1.8404327],
  [120, 116, 0, 2.5],
])('gratings of %d and %d lines/cm, %d° apart', (f1, f2, angle, period) => {
  const beats = beatsOf({ meshPerCm: f1, meshAngleDeg: 0, lpi: f2 * 2.54, screenAngleDeg: angle });
  const first = beats.find(
    (b) => b.meshOrder[0] === -1 && b.meshOrder[1] === 0 && b.screenOrder[0] === -1 && b.screenOrder[1] === 0,
  );
  expect(first?.period).toBeCloseTo(period, 6);
});

test('turning mesh and halftone together changes no beat', () => {
  const at = (turn: number) =>
    beatsOf({ meshPerCm: 77, meshAngleDeg: turn, lpi: 45, screenAngleDeg: 22.5 + turn }).map((b) => b.perCm);
  const [still, turned] = [at(0), at(13)];
  for (const [i, f] of still.slice(0, 20).entries()) expect(turned[i]).toBeCloseTo(f, 8);
});

test('an exact fourth of the mesh count at 0° has no beat, and is said to be seen', () => {
  const worked = moire({ meshPerCm: 120, meshAngleDeg: 0, lpi: 76.2, screenAngleDeg: 0 });
  expect(worked.ok && worked.value.result.worst.period).toBeNull();
  expect(worked.ok && worked.value.result.seen).toBe(true);
});

test('suggested angles and rulings beat the wanted setting', () => {
  const worked = moire({ meshPerCm: 120, meshAngleDeg: 0, lpi: 81.28, screenAngleDeg: 22.5 });
  if (!worked.ok) throw new Error(worked.reason);
  const { worst, angles, rulings } = worked.value.result;
  expect(worst.period).toBeCloseTo(2.986732, 5);
  for (const { period } of [...angles, ...rulings]) expect(period).toBeLessThan(worst.period as number);
});

test('the picture shows the worst beat at the period the vectors give', () => {
  const input = { meshPerCm: 77, meshAngleDeg: 0, lpi: 46, screenAngleDeg: 2 };
  const worst = beatsOf(input)[0];
  if (!worst?.period) throw new Error('no beat');
  const size = 40;
  const pxPerMm = 8;
  const { data, width } = moirePicture({ ...input, threadUm: 48 }, size, pxPerMm, 0.35, 1);
  // The Fourier coefficient at the predicted frequency, against those at half and one and a half times of it.
  const mean = data.reduce((a, b) => a + b, 0) / data.length;
  const power = (times: number) => {
    const turn = (worst.angleDeg * Math.PI) / 180;
    const f = (times * 2 * Math.PI * worst.perCm) / 10 / pxPerMm;
    let [re, im] = [0, 0];
    for (let y = 0; y < width; y++)
      for (let x = 0; x < width; x++) {
        const hann = Math.sin((Math.PI * x) / width) ** 2 * Math.sin((Math.PI * y) / width) ** 2;
        const phase = f * (x * Math.cos(turn) + y * Math.sin(turn));
        re += hann * ((data[y * width + x] as number) - mean) * Math.cos(phase);
        im += hann * ((data[y * width + x] as number) - mean) * Math.sin(phase);
      }
    return Math.hypot(re, im);
  };
  expect(power(1)).toBeGreaterThan(4 * power(0.6));
  expect(power(1)).toBeGreaterThan(4 * power(1.4));
});
