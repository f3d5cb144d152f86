import {
  FACES,
  type Face,
  MISFIT_CONTOUR,
  makeFilmMap,
  makeSurface,
  misfit,
  outlineRing,
} from '../../core/deck/index.ts';
import { growthOf } from '../../core/faceGrowth.ts';
import type { Job } from '../../core/job/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome, parseLength } from '../../core/units/index.ts';
import type { Command, Context } from './context.ts';
import { MISFIT_DPI, misfitOnPaper } from './misfitFile.ts';
import { openJobFile } from './openJob.ts';
import { type CommandSpec, choiceOf, type Given } from './options.ts';
import { sayJson } from './say.ts';

export const spec: CommandSpec = {
  name: 'deck',
  takes: ['JOB'],
  does: 'tells where a point of the deck lands: in plan, on the wood, on the film, and how high it lies; draws where a flat film can not lie true',
  options: [
    { name: 'point', value: 'X,Y', help: 'the point: lengths from mid-wheelbase to the nose and up as seen' },
    { name: 'face', value: 'bottom|top', help: 'the face it is on (bottom)' },
    {
      name: 'from',
      value: 'plan|surface',
      help: 'whether it was measured seen from above (plan) or along the wood',
    },
    {
      name: 'misfit',
      value: 'FILE.png',
      help: 'writes a heat map: orange where the wood is longer than the film, blue where shorter',
    },
    { name: 'json', help: 'prints the numbers as JSON' },
  ],
  examples: ['kickflat deck out/night-heron.kickflat --point 300,50 --from plan --json'],
};

/** Points further out than this lie on no deck. */
const FURTHEST = 2000;

function pointFrom(text: string): Outcome<readonly [number, number]> {
  const parts = text.split(/[,;]/);
  const bad = optionTrouble.notPoint(text.slice(0, 60));
  if (parts.length !== 2) return bad;
  const x = parseLength(parts[0] as string);
  const y = parseLength(parts[1] as string);
  if (!x.ok || !y.ok) return bad;
  if (Math.abs(x.value) > FURTHEST || Math.abs(y.value) > FURTHEST)
    return optionTrouble.pointOffDeck(FURTHEST);
  return done([x.value, y.value]);
}

/** Whether a plan point lies on the deck; its outline's own edge counts. */
function onDeck(job: Job, face: Face, x: number, y: number): boolean {
  let inside = false;
  const ring = outlineRing(job.deck, face);
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[i] as readonly [number, number];
    const [bx, by] = ring[j] as readonly [number, number];
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
  }
  return inside;
}

/** Where the point lands in each space. */
function landing(job: Job, face: Face, given: Given, [a, b]: readonly [number, number]) {
  const from = choiceOf(given, 'from', ['plan', 'surface'] as const);
  if (!from.ok) return from;
  const surface = makeSurface(job.deck, face);
  const along = from.value === 'surface' ? { s: a, t: b } : surface.toSurface({ x: a, y: b });
  const seen = surface.toPlan(along);
  const plan = from.value === 'surface' ? seen : { x: a, y: b };
  const back = surface.toSurface(seen);
  // Beyond where the bend stands upright a point has no place of its own.
  if (
    Math.hypot(plan.x - seen.x, plan.y - seen.y) > 1e-6 ||
    Math.hypot(back.s - along.s, back.t - along.t) > 1e-6
  )
    return optionTrouble.pointUpright();
  const growth = growthOf(job, face);
  if (!growth.ok) return growth;
  const { development, railMargin } = job.faces[face];
  const map = makeFilmMap(job.deck, face, { development, growth: growth.value, railMargin });
  return done({ plan, surface: along, film: map.toFilm(along), height: surface.toSpace(along).z });
}

async function writeMisfit(context: Context, job: Job, face: Face, out: string) {
  if (!/\.png$/i.test(out)) return optionTrouble.heatMapNotPng(out);
  const { development, railMargin } = job.faces[face];
  const grid = misfit(job.deck, face, development, undefined, railMargin);
  const picture = misfitOnPaper(job.deck, face, grid);
  const written = await context.files.write(out, await context.codec.encodePng(picture, MISFIT_DPI));
  if (!written.ok) return written;
  const { worstMisfit, worstStretch } = grid;
  return done({
    file: out,
    face,
    development,
    worstMisfit: { mm: worstMisfit.mm, at: worstMisfit.at },
    worstStretch: { value: worstStretch.value, at: worstStretch.at },
    contour: MISFIT_CONTOUR,
  });
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const text = given.text('point');
  const out = given.text('misfit');
  if (text === undefined && out === undefined) return optionTrouble.noPoint();
  const point = text === undefined ? null : pointFrom(text);
  if (point && !point.ok) return point;
  const face = choiceOf(given, 'face', FACES);
  if (!face.ok) return face;
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const { job } = file.value;
  const on = face.value ?? 'bottom';
  const found = point ? landing(job, on, given, point.value) : null;
  if (found && !found.ok) return found;
  const drawn = out === undefined ? null : await writeMisfit(context, job, on, out);
  if (drawn && !drawn.ok) return drawn;
  const { voice } = context;
  if (found && !onDeck(job, on, found.value.plan.x, found.value.plan.y))
    voice.err('That point lies outside the deck’s outline.\n');
  if (given.flag('json')) {
    sayJson(voice, { ...found?.value, ...(drawn ? { misfit: drawn.value } : {}) });
    return done(0);
  }
  if (found) {
    const { plan, surface, film, height } = found.value;
    const pair = (name: string, p: number, q: number) =>
      voice.out(`${name.padEnd(8)} ${p.toFixed(2).padStart(9)} ${q.toFixed(2).padStart(9)} mm\n`);
    pair('plan', plan.x, plan.y);
    pair('surface', surface.s, surface.t);
    pair('film', film.u, film.v);
    voice.out(`height   ${height.toFixed(2).padStart(9)} mm\n`);
  }
  if (drawn) {
    const { worstMisfit, worstStretch } = drawn.value;
    voice.out(
      `${drawn.value.file}: ${on} face, ${drawn.value.development}; orange where the wood is longer than the film, blue where shorter, a line every ${MISFIT_CONTOUR} mm\n` +
        `worst misfit  ${worstMisfit.mm.toFixed(2)} mm at ${worstMisfit.at.s.toFixed(0)}, ${worstMisfit.at.t.toFixed(0)}\n` +
        `worst stretch ${((worstStretch.value - 1) * 100).toFixed(2)} % at ${worstStretch.at.s.toFixed(0)}, ${worstStretch.at.t.toFixed(0)}\n`,
    );
  }
  return done(0);
};
