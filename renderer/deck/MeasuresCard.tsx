import { useState } from 'react';
import {
  type Deck,
  deckLength,
  endLength,
  type LengthWay,
  straightEndLength,
} from '../../core/deck/index.ts';
import { Card, Choice, LengthField, Pick } from '../bench/index.ts';
import { formatLength, useStudio } from '../state/index.ts';
import { WhereToMeasure } from './WhereToMeasure.tsx';

/** Hole patterns of trucks, mm, centre to centre along and across (common practice, no source). */
const PATTERNS = [
  { value: 'usual', label: '2 1/8 × 1 5/8 in, usual', along: 53.975, across: 41.275 },
  { value: 'older', label: '2 1/2 × 1 5/8 in, older', along: 63.5, across: 41.275 },
] as const;

interface Props {
  readonly deck: Deck;
  readonly change: (label: string, change: (deck: Deck) => Deck, squash?: string) => void;
}

/** Lengths of the deck, as they are measured on the wood: straight down, or with a tape along the top. */
export function MeasuresCard({ deck, change }: Props) {
  const units = useStudio((s) => s.job?.units ?? 'mm');
  const [way, setWay] = useState<LengthWay>('straight');
  const put = (key: 'width' | 'wheelbase' | 'thickness', name: string) => (mm: number) =>
    change(`Change ${name}`, (d) => ({ ...d, [key]: mm }), `deck ${key}`);
  const putEnd = (end: 'nose' | 'tail') => (mm: number) =>
    change(
      `Change ${end} length`,
      (d) => ({ ...d, [`${end}Length`]: way === 'straight' ? mm : straightEndLength(d, end, mm) }),
      `deck ${end}`,
    );
  const holes = (next: Partial<Deck['holes']>) =>
    change(
      'Change truck holes',
      (d) => ({ ...d, holes: { ...d.holes, ...next } }),
      `holes ${Object.keys(next)}`,
    );
  const pattern = PATTERNS.find(
    (p) => Math.abs(p.along - deck.holes.along) < 0.05 && Math.abs(p.across - deck.holes.across) < 0.05,
  );
  const say = (mm: number) => formatLength(mm, units);
  return (
    <Card title="Measures">
      <WhereToMeasure />
      <div className="fields">
        <LengthField
          label="Width, rail to rail"
          value={deck.width}
          onChange={put('width', 'width')}
          min={60}
          max={500}
          step={1}
          large
        />
        <LengthField
          label="Wheelbase, inner holes"
          value={deck.wheelbase}
          onChange={put('wheelbase', 'wheelbase')}
          min={100}
          max={1200}
          step={1}
          large
        />
      </div>
      <Choice
        label="Nose and tail are measured"
        value={way}
        options={[
          { value: 'straight', label: 'Straight', hint: 'With a rule held level: as seen from above' },
          { value: 'along', label: 'Along the top', hint: 'With a tape that follows the bend' },
        ]}
        onChange={setWay}
      />
      <div className="fields">
        {(['nose', 'tail'] as const).map((end) => (
          <LengthField
            key={end}
            label={`${end === 'nose' ? 'Nose' : 'Tail'}, from outer holes`}
            value={endLength(deck, end, way)}
            onChange={putEnd(end)}
            min={0}
            max={600}
            step={1}
          />
        ))}
        <LengthField
          label="Thickness"
          value={deck.thickness}
          onChange={put('thickness', 'thickness')}
          min={2}
          max={40}
          step={0.1}
        />
        <LengthField
          label="Hole diameter"
          value={deck.holes.diameter}
          onChange={(diameter) => holes({ diameter })}
          min={1}
          max={20}
          step={0.1}
        />
      </div>
      <Pick
        label="Truck holes, along × across"
        value={pattern?.value ?? 'own'}
        options={[...PATTERNS, { value: 'own' as const, label: 'Another pattern' }]}
        onChange={(value) => {
          const next = PATTERNS.find((p) => p.value === value);
          if (next) holes({ along: next.along, across: next.across });
          else holes({ along: deck.holes.along + 1 });
        }}
      />
      {!pattern && (
        <div className="fields">
          <LengthField
            label="Holes along"
            value={deck.holes.along}
            onChange={(along) => holes({ along })}
            min={10}
            max={150}
            step={0.5}
          />
          <LengthField
            label="Holes across"
            value={deck.holes.across}
            onChange={(across) => holes({ across })}
            min={10}
            max={150}
            step={0.5}
          />
        </div>
      )}
      <dl className="lengths">
        <dt>Whole length, straight</dt>
        <dd>{say(deckLength(deck, 'straight'))}</dd>
        <dt>along the top</dt>
        <dd>{say(deckLength(deck, 'along', 'top'))}</dd>
        <dt>along the bottom</dt>
        <dd>{say(deckLength(deck, 'along', 'bottom'))}</dd>
      </dl>
      {deck.outline.kind === 'path' && (
        <p className="hint">
          Width, nose and tail are those of the outline from {deck.outline.source || 'a file'}.
        </p>
      )}
    </Card>
  );
}
