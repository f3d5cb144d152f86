import { useEffect, useId, useState } from 'react';
import { sealEdits } from '../state/index.ts';

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

/** A plain number with its unit; arrow keys step. */
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
  const [text, setText] = useState(shown);
  useEffect(() => setText(shown), [shown]);
  const put = (n: number) => {
    if (Number.isFinite(n)) onChange(Math.min(max, Math.max(min, Number(n.toFixed(digits)))));
  };
  const finish = () => {
    const n = Number(text.replace(',', '.').replace(/[^\d.eE+-]/g, ''));
    if (text !== shown) put(n);
    setText(shown);
    sealEdits();
  };
  return (
    <div className="field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : ''}>
        {label}
      </label>
      <span className="field-box">
        <input
          id={id}
          inputMode="decimal"
          value={text}
          onFocus={(e) => e.target.select()}
          onChange={(e) => setText(e.target.value)}
          onBlur={finish}
          onKeyDown={(e) => {
            if (e.key === 'Enter') finish();
            if (e.key !== 'ArrowUp' && e.key !== 'ArrowDown') return;
            e.preventDefault();
            put(value + (e.key === 'ArrowUp' ? step : -step) * (e.shiftKey ? 10 : 1));
          }}
        />
        {unit && <span className="field-unit">{unit}</span>}
      </span>
    </div>
  );
}
