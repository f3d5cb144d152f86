import { useMemo } from 'react';
import { type Deck, outlineRing, TEMPLATES, truckHoles } from '../../core/deck/index.ts';
import { Card } from '../bench/index.ts';
import { ImportOutline } from './ImportOutline.tsx';

/** A deck's plan as a small drawing, nose right; all at one scale. */
export function DeckDrawing({ deck }: { deck: Deck }) {
  const { path, holes } = useMemo(() => {
    const ring = outlineRing(deck, 'bottom', 0.5);
    return {
      path: `${ring.map(([x, y], i) => `${i ? 'L' : 'M'}${x.toFixed(1)} ${(-y).toFixed(1)}`).join('')}Z`,
      holes: truckHoles(deck, 'bottom'),
    };
  }, [deck]);
  return (
    <svg className="deck-drawing" viewBox="-530 -135 1060 270" aria-hidden="true">
      <path d={path} className="deck-wood" />
      {holes.map((h) => (
        <circle key={`${h.x} ${h.y}`} cx={h.x} cy={-h.y} r={5} className="deck-hole" />
      ))}
    </svg>
  );
}

/** Generic decks to start from. Their measures are then changed to those of the wood at hand. */
export function Templates({ deck, onPick }: { deck: Deck; onPick: (deck: Deck, title: string) => void }) {
  return (
    <Card title="Which deck">
      <p className="hint">Start from the nearest, then measure your own.</p>
      <ul className="templates">
        {TEMPLATES.map((t) => (
          <li key={t.name}>
            <button
              type="button"
              aria-pressed={deck.name === t.deck.name}
              onClick={() => onPick(t.deck, t.title)}
            >
              <DeckDrawing deck={t.deck} />
              <span>{t.title}</span>
            </button>
          </li>
        ))}
      </ul>
      <ImportOutline deck={deck} onTake={onPick} />
    </Card>
  );
}
