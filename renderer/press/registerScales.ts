import { useStudio } from '../state/index.ts';

/** A vernier of a test print: where it stands, film mm, and which way it reads. */
export interface Scale {
  readonly x: number;
  readonly y: number;
  readonly along: boolean;
  readonly across: boolean;
}

/** Where this pull's films carry verniers; without films, the tips and rails with both scales. */
export function useScales(inkId: string): readonly Scale[] {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const plan = useStudio((s) => s.filmPlan);
  const film = plan?.face === face ? plan.films.find((f) => f.inkId === inkId) : undefined;
  const scales: Scale[] = [];
  for (const mark of film?.marks ?? []) {
    const along = mark.kind === 'vernier-along';
    if (!along && mark.kind !== 'vernier-across') continue;
    scales.push({ x: mark.x, y: mark.y, along, across: !along });
  }
  if (scales.length >= 3) return scales;
  const end = job.deck.wheelbase / 2 + job.deck.holes.along + 60;
  const rail = job.deck.width / 2 - 10;
  return (
    [
      [-end, 0],
      [end, 0],
      [0, rail],
      [0, -rail],
    ] as const
  ).map(([x, y]) => ({ x, y, along: true, across: true }));
}

/** Where a scale stands, in words. */
export function placeWords({ x, y }: Scale): string {
  const end = Math.abs(x) > 60 ? (x > 0 ? 'nose' : 'tail') : 'middle';
  const side = Math.abs(y) > 20 ? (y > 0 ? ', far rail' : ', near rail') : '';
  return `${end}${side}`;
}
