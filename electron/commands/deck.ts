import { FACES, makeFilmMap, makeSurface } from '../../core/deck/index.ts';
import { growthOf } from '../../core/faceGrowth.ts';
import { badInput, done, type Outcome, parseLength } from '../../core/units/index.ts';
import type { Command } from './context.ts';
import { openJobFile } from './openJob.ts';
import { type CommandSpec, choiceOf } from './options.ts';
import { sayJson } from './say.ts';

export const spec: CommandSpec = {
  name: 'deck',
  takes: ['JOB'],
  does: 'tells where a point of the deck lands: in plan, on the wood, on the film, and how high it lies',
  options: [
    { name: 'point', value: 'X,Y', help: 'the point: lengths from mid-wheelbase to the nose and up as seen' },
    { name: 'face', value: 'bottom|top', help: 'the face it is on (bottom)' },
    {
      name: 'from',
      value: 'plan|surface',
      help: 'whether it was measured seen from above (plan) or along the wood',
    },
    { name: 'json', help: 'prints the numbers as JSON' },
  ],
  example: 'kickflat deck out/night-heron.kickflat --point 300,50 --from plan --json',
};

/** Points further out than this lie on no deck. */
const FURTHEST = 2000;

function pointFrom(text: string): Outcome<readonly [number, number]> {
  const parts = text.split(/[,;]/);
  const bad = badInput(
    `“${text.slice(0, 60)}” is not a point.`,
    'Give two lengths with a comma between, like 300,50 or 12in,2in.',
  );
  if (parts.length !== 2) return bad;
  const x = parseLength(parts[0] as string);
  const y = parseLength(parts[1] as string);
  if (!x.ok || !y.ok) return bad;
  if (Math.abs(x.value) > FURTHEST || Math.abs(y.value) > FURTHEST)
    return badInput(
      'That point lies on no deck.',
      `Give lengths of at most ${FURTHEST} mm from mid-wheelbase.`,
    );
  return done([x.value, y.value]);
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const text = given.text('point');
  if (text === undefined) return badInput('No point was given.', 'Give one with --point X,Y.');
  const point = pointFrom(text);
  if (!point.ok) return point;
  const face = choiceOf(given, 'face', FACES);
  if (!face.ok) return face;
  const from = choiceOf(given, 'from', ['plan', 'surface'] as const);
  if (!from.ok) return from;
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const { job } = file.value;
  const on = face.value ?? 'bottom';
  const surface = makeSurface(job.deck, on);
  const [a, b] = point.value;
  const along = from.value === 'surface' ? { s: a, t: b } : surface.toSurface({ x: a, y: b });
  const plan = surface.toPlan(along);
  const growth = growthOf(job, on);
  if (!growth.ok) return growth;
  const { development, railMargin } = job.faces[on];
  const map = makeFilmMap(job.deck, on, { development, growth: growth.value, railMargin });
  const film = map.toFilm(along);
  const height = surface.toSpace(along).z;
  if (given.flag('json')) sayJson(context.voice, { plan, surface: along, film, height });
  else {
    const pair = (name: string, p: number, q: number) =>
      context.voice.out(`${name.padEnd(8)} ${p.toFixed(2).padStart(9)} ${q.toFixed(2).padStart(9)} mm\n`);
    pair('plan', plan.x, plan.y);
    pair('surface', along.s, along.t);
    pair('film', film.u, film.v);
    context.voice.out(`height   ${height.toFixed(2).padStart(9)} mm\n`);
  }
  return done(0);
};
