import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { mixer } from '../../core/separate/nearestMixture.ts';
import { random } from './separation/flatArt.ts';

/**
 * Shares of inks, at least 0 and in sum at most 1, against general-purpose solvers: scipy's `nnls` and SLSQP. Their answers to 56
 * cases stand in a file; where scipy is installed it solves further ones while the test runs. Among mixtures that are equally near the
 * program takes near inks, so that with more than three inks shares may differ where the mixtures do not.
 */
type Light = readonly [number, number, number];
interface Case {
  readonly bare: Light;
  readonly inks: readonly Light[];
  readonly target: Light;
}
interface Answer {
  readonly nnls: readonly number[];
  readonly slsqp: readonly number[];
  readonly missNnls: number;
  readonly missSlsqp: number;
}

/** Light, of white's 1, by which the program may be farther off: what its cost on far inks and its heavy row give away. */
const NEARER = 1e-3;
/** Shares where the answer is the only one. */
const SHARE = 0.01;

const SCRIPT = fileURLToPath(new URL('separation/leastSquares.py', import.meta.url));
const FIXED = JSON.parse(readFileSync(new URL('separation/leastSquares.json', import.meta.url), 'utf8')) as {
  readonly source: string;
  readonly cases: readonly (Case & Answer)[];
};

/** The program's shares of the inks. */
function ours({ bare, inks, target }: Case): number[] {
  const shares = new Float64Array(inks.length + 1);
  mixer([bare, ...inks]).solve(...target, shares);
  return [...shares].slice(1);
}

/** Distance in light from the target to the mixture. */
const miss = ({ bare, inks, target }: Case, shares: readonly number[]): number =>
  Math.hypot(
    ...[0, 1, 2].map((c) =>
      inks.reduce(
        (sum, ink, i) => sum + shares[i]! * (ink[c as 0] - bare[c as 0]),
        bare[c as 0] - target[c as 0],
      ),
    ),
  );

/** Twice the area, or six times the volume, that bare and the inks span: where it is small, shares are uncertain. */
function spread({ bare, inks }: Case): number {
  const [a, b, c] = inks.map((ink) => ink.map((v, k) => v - bare[k]!) as unknown as Light);
  if (!a) return 0;
  if (!b) return Math.hypot(...a);
  const cross = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]] as const;
  return c ? Math.abs(cross[0] * c[0] + cross[1] * c[1] + cross[2] * c[2]) : Math.hypot(...cross);
}

function compare(cases: readonly Case[], answers: readonly Answer[]): { worst: number; unique: number } {
  let worst = 0;
  let unique = 0;
  cases.forEach((one, k) => {
    const { nnls, slsqp, missNnls, missSlsqp } = answers[k]!;
    const name = `case ${k}, ${one.inks.length} inks`;
    // The two solvers must agree before either is believed.
    expect(Math.abs(missNnls - missSlsqp), name).toBeLessThan(2e-4);
    expect(miss(one, nnls), name).toBeCloseTo(missNnls, 5);
    const shares = ours(one);
    expect(Math.min(...shares), name).toBeGreaterThanOrEqual(0);
    expect(
      shares.reduce((a, b) => a + b),
      name,
    ).toBeLessThanOrEqual(1 + 1e-9);
    const off = miss(one, shares) - Math.min(missNnls, missSlsqp);
    worst = Math.max(worst, off);
    expect(off, name).toBeLessThan(NEARER);
    if (one.inks.length > 3 || spread(one) < 0.05) return;
    unique++;
    shares.forEach((share, i) => {
      expect(Math.abs(share - slsqp[i]!), name).toBeLessThan(SHARE);
    });
  });
  return { worst, unique };
}

describe('shares of inks', () => {
  test('are as near as those of general-purpose solvers, and the same where only one answer is right', () => {
    expect(FIXED.cases.length).toBe(56);
    const { worst, unique } = compare(FIXED.cases, FIXED.cases);
    expect(unique).toBeGreaterThan(12);
    console.log(
      `${FIXED.cases.length} cases by ${FIXED.source}: at most ${worst.toFixed(5)} of white farther off, ${unique} with one answer`,
    );
  });

  const installed = (() => {
    try {
      execFileSync('python3', ['-c', 'import scipy.optimize'], { stdio: 'ignore' });
      return true;
    } catch {
      return false;
    }
  })();
  test.skipIf(!installed)('are so too in cases solved now (skipped without scipy)', () => {
    const next = random(1974);
    const light = (): Light => [next(), next(), next()];
    const cases = Array.from(
      { length: 40 },
      (_, k): Case => ({
        bare: light(),
        inks: Array.from({ length: 1 + (k % 8) }, light),
        target: light(),
      }),
    );
    const answers = JSON.parse(
      execFileSync('python3', [SCRIPT], { input: JSON.stringify(cases), encoding: 'utf8' }),
    ) as Answer[];
    expect(answers.length).toBe(cases.length);
    expect(compare(cases, answers).unique).toBeGreaterThan(3);
  });
});
