import { useEffect } from 'react';
import { Card } from '../bench/index.ts';
import { formatLength, hatchGround, useStudio } from '../state/index.ts';

/** What is hatched on the deck, and how to tell it apart: all spreads and the choke, or one pair. */
export function SpreadsShown() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const pair = useStudio((s) => s.pair);
  const { traps, inks } = job.faces[face];
  // Another face has other pairs, another station none.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the pair is let go when the face changes, not when it is chosen
  useEffect(() => () => useStudio.setState({ pair: null }), [face]);
  const from = inks.findIndex((ink) => ink.id === pair?.spreads);
  const under = inks.find((ink) => ink.id === pair?.under);
  const base = inks.find((ink) => ink.role === 'base');
  const line = (kind: number | 'choke', hex: string, name: string, small = '') => (
    <li key={name}>
      <span
        className={`hatch hatch-${kind === 'choke' ? kind : kind % 6}`}
        style={{ color: hex, backgroundColor: hatchGround(hex) }}
      />
      <b>{name}</b>
      {small && <small>{small}</small>}
    </li>
  );
  if (pair && from >= 0 && under)
    return (
      <Card title="On the deck">
        <p className="hint">One pair alone is hatched.</p>
        <ul className="found">{line(from, inks[from]!.hex, `${inks[from]!.name} under ${under.name}`)}</ul>
      </Card>
    );
  return (
    <Card title="On the deck">
      <p className="hint">
        Spreads are hatched in the colour of the ink that spreads; each ink has its own hatch. Zoom in to see
        them at the border, or choose a pair in the table.
      </p>
      <ul className="found">
        {inks.map((ink, i) => (ink.role === 'base' ? null : line(i, ink.hex, ink.name)))}
        {base &&
          line(
            'choke',
            base.hex,
            `${base.name}, drawn in`,
            `stays inside by ${formatLength(traps.choke, job.units, 2)}`,
          )}
      </ul>
    </Card>
  );
}
