import { useStudio } from '../state/index.ts';

/** A vernier of a test print: where it stands, surface mm, and which way it reads. */
interface Scale {
  readonly x: number;
  readonly y: number;
  readonly reads: 'along' | 'across';
}

/** Where a test print is read: at an end or a rail, by the scale for each way. Far is away from you. */
const PLACES = ['nose', 'tail', 'far rail', 'near rail'] as const;
type Place = (typeof PLACES)[number];

const middle = (numbers: readonly number[]) => (Math.min(...numbers) + Math.max(...numbers)) / 2;
const half = (numbers: readonly number[]) => Math.max(1, (Math.max(...numbers) - Math.min(...numbers)) / 2);

/** Which place of all a scale stands at; the art, and the marks about it, may lie anywhere on the deck. */
function placeOf(scale: Scale, all: readonly Scale[]): Place {
  const [xs, ys] = [all.map(({ x }) => x), all.map(({ y }) => y)];
  const dx = (scale.x - middle(xs)) / half(xs);
  const dy = (scale.y - middle(ys)) / half(ys);
  if (Math.abs(dx) > Math.abs(dy)) return dx > 0 ? 'nose' : 'tail';
  return dy > 0 ? 'far rail' : 'near rail';
}

/** The scales of a pull by where they stand; a slim mark has one alone. */
function scalesByPlace(scales: readonly Scale[]): ReadonlyMap<Place, readonly Scale[]> {
  const found = new Map<Place, Scale[]>();
  for (const place of PLACES) {
    const there = scales.filter((scale) => placeOf(scale, scales) === place);
    if (there.length > 0) found.set(place, there);
  }
  return found;
}

interface Scales {
  readonly places: ReadonlyMap<Place, readonly Scale[]>;
  /** Films are not laid out: the places are the tips and rails, whatever the art. */
  readonly guessed: boolean;
}

/** Where this pull's films print verniers; without films, the tips and rails with both scales. */
export function useScales(inkId: string): Scales {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const plan = useStudio((s) => s.filmPlan);
  const film = plan?.face === face ? plan.films.find((f) => f.inkId === inkId) : undefined;
  const scales: Scale[] = [];
  for (const { kind, x, y } of film?.marks ?? [])
    if (kind === 'vernier-along') scales.push({ x, y, reads: 'along' });
    else if (kind === 'vernier-across') scales.push({ x, y, reads: 'across' });
  if (scales.length >= 3) return { places: scalesByPlace(scales), guessed: false };
  const end = job.deck.wheelbase / 2 + job.deck.holes.along + 60;
  const rail = job.deck.width / 2 - 10;
  const tips: readonly (readonly [Place, number, number])[] = [
    ['nose', end, 0],
    ['tail', -end, 0],
    ['far rail', 0, rail],
    ['near rail', 0, -rail],
  ];
  const both = (x: number, y: number) => (['along', 'across'] as const).map((reads) => ({ x, y, reads }));
  return { places: new Map(tips.map(([place, x, y]) => [place, both(x, y)])), guessed: true };
}
