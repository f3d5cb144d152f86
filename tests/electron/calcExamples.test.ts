import { describe, expect, test } from 'vitest';
import { run, spec } from '../../electron/commands/calc.ts';
import { CALCULATORS } from '../../electron/commands/calculators.ts';
import { type Context, readOptions } from '../../electron/commands/index.ts';

/** Runs calc with these words, with nothing around it but a voice. */
async function calc(args: readonly string[]) {
  let out = '';
  const voice = {
    out: (text: string) => {
      out += text;
    },
    err: () => undefined,
    terminal: false,
  };
  const given = readOptions(spec, args);
  if (!given.ok) return { ended: given, out };
  const ended = await run(given.value, { voice, abort: { aborted: false } } as unknown as Context);
  return { ended, out };
}

describe('calc', () => {
  test.each(CALCULATORS)('the example of $name runs, in words and as JSON', async ({ example, rows }) => {
    const args = example.split(' ').slice(2);
    const said = await calc(args);
    expect(said.ended).toEqual({ ok: true, value: 0 });
    expect(said.out.split('\n').length).toBeGreaterThan(rows.length / 2);
    expect(said.out).not.toMatch(/NaN|undefined|Infinity/);
    const json = await calc([...args, '--json']);
    const { inputs, result, formula, assumptions } = JSON.parse(json.out);
    expect(Object.keys(inputs).length).toBeGreaterThan(0);
    expect(Object.keys(result).length).toBeGreaterThan(0);
    expect(formula.length).toBeGreaterThan(10);
    expect(assumptions.length).toBeGreaterThan(0);
  });

  // A 21-step tablet in steps of 0.15 (G. Saxby), read at 5 for 7: 60 s × 10^0.3, and (75/50)² for the lamp.
  test('the tablet and the lamp together, unrounded', async () => {
    const { out } = await calc(
      'exposure --time 60 --step-read 5 --distance 50cm --new-distance 75cm --json'.split(' '),
    );
    expect(JSON.parse(out).result.time).toBeCloseTo(60 * 10 ** 0.3 * 2.25, 9);
  });

  test.each([
    ['register --mark here', /no reading of a mark/],
    ['register', /No mark was read/],
    ['moire --lpi 0', /--lpi must be/],
    ['ink --step-read 3', /takes no --step-read/],
    ['mesh --mesh 200 --thread 60', /thread diameter must be/],
    ['nothing', /no calculator/],
    ['plan --people 0', /--people must be/],
  ])('%s is refused in a sentence', async (line, reason) => {
    const { ended } = await calc(line.split(' '));
    expect(ended).toMatchObject({ ok: false, kind: 'input', reason: expect.stringMatching(reason) });
  });
});
