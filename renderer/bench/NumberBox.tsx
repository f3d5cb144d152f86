import { useId } from 'react';
import { parseNumberSum } from '../../core/units/index.ts';
import { sealEdits, tell } from '../state/index.ts';
import { useDraft } from './useDraft.ts';
import { useScrub } from './useScrub.ts';

interface Props {
  readonly label: string;
  readonly value: number;
  readonly onChange: (n: number) => void;
  readonly min: number;
  readonly max: number;
  readonly step?: number;
  readonly unit?: string;
  readonly digits?: number;
  readonly hideLabel?: boolean;
}

/** A plain number with its unit; takes simple sums; arrow keys step; dragging the label sideways scrubs. */
export function NumberBox({
  label,
  value,
  onChange,
  min,
  max,
  step = 1,
  unit,
  digits = 2,
  hideLabel,
}: Props) {
  const id = useId();
  const shown = String(Number(value.toFixed(digits)));
  const { text, changed, type, drop } = useDraft(shown);
  const put = (n: number) => {
    if (Number.isFinite(n)) onChange(Math.min(max, Math.max(min, Number(n.toFixed(digits)))));
  };
  const scrub = useScrub(value, step, put);
  const finish = () => {
    const n = changed ? parseNumberSum(text) : null;
    if (n !== null) put(n);
    else if (changed)
      tell('trouble', `“${text.slice(0, 40)}” is not a number.`, 'Write it like 12.5 or 10 + 2*3.');
    drop();
    sealEdits();
  };
  return (
    <div className="field">
      <label htmlFor={id} {...scrub} className={hideLabel ? 'unseen' : scrub.className}>
        {label}
      </label>
      <span className="field-box">
        <input
          id={id}
          inputMode="decimal"
          value={text}
          onFocus={(e) => e.target.select()}
          onChange={(e) => type(e.target.value)}
          onBlur={finish}
          onKeyDown={(e) => {
            if (e.key === 'Enter') finish();
            if (e.key === 'Escape') drop();
            if (e.key !== 'ArrowUp' && e.key !== 'ArrowDown') return;
            e.preventDefault();
            drop();
            put(value + (e.key === 'ArrowUp' ? step : -step) * (e.shiftKey ? 10 : 1));
          }}
        />
        {unit && <span className="field-unit">{unit}</span>}
      </span>
    </div>
  );
}
