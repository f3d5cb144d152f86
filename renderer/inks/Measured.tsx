import type { Ink } from '../../core/job/index.ts';
import { hidingOf } from '../../core/proof/index.ts';
import { sealEdits } from '../state/index.ts';

type Measured = NonNullable<Ink['measured']>;

/** How an ink was measured over black and white cards, or how to. */
export function MeasuredInk({ ink, put }: { ink: Ink; put: (label: string, change: Partial<Ink>) => void }) {
  const { measured } = ink;
  const set = (change: Partial<Measured>) => {
    const next: Measured = {
      overBlackHex: measured?.overBlackHex ?? '#000000',
      overWhiteHex: measured?.overWhiteHex ?? ink.hex,
      ...change,
    };
    put('Change measured ink', {
      measured: next,
      hex: next.overWhiteHex,
      matches: ink.matches ?? ink.hex,
      opacity: Number(hidingOf(next).toFixed(3)),
    });
  };
  return (
    <details className="measured-ink">
      <summary>{measured ? 'Measured over black and white' : 'Measure how it hides'}</summary>
      <ol className="hint">
        <li>Pull one pass, as on the deck, over a card that is half black and half white. Let it dry.</li>
        <li>
          Read both halves with a colour meter, or photograph them in even daylight beside a plain white sheet
          and take the colours from the picture.
        </li>
        <li>Enter both. The proof then works out the ink over any wood and any ink (Kubelka–Munk).</li>
      </ol>
      <div className="pair">
        {(
          [
            ['overBlackHex', 'Over black'],
            ['overWhiteHex', 'Over white'],
          ] as const
        ).map(([key, label]) => (
          <label key={key} className="swatch-field">
            <input
              type="color"
              value={measured?.[key] ?? (key === 'overBlackHex' ? '#000000' : ink.hex)}
              onChange={(e) => set({ [key]: e.target.value })}
              onBlur={sealEdits}
            />
            <span>{label}</span>
          </label>
        ))}
      </div>
      {measured && (
        <button type="button" onClick={() => put('Forget measured ink', { measured: undefined })}>
          Forget the measurement
        </button>
      )}
      {!measured && <p className="hint">Until then it is shown by its colour and by how much it hides.</p>}
    </details>
  );
}
