import { type KeyboardEvent, useId } from 'react';
import { parseSum } from '../../core/units/index.ts';
import { lengthNumber, sealEdits, tell, useStudio } from '../state/index.ts';
import { useDraft } from './useDraft.ts';
import { useScrub } from './useScrub.ts';

interface Props {
  readonly label: string;
  /** mm. */
  readonly value: number;
  readonly onChange: (mm: number) => void;
  readonly min?: number;
  readonly max?: number;
  /** mm an arrow key steps; ten times that with Shift. */
  readonly step?: number;
  readonly large?: boolean;
  readonly hint?: string;
}

/** A length: takes `8.25in`, `8 1/4"`, `210 mm` and sums of such; arrow keys step; dragging the label sideways scrubs. */
export function LengthField({
  label,
  value,
  onChange,
  min = -5000,
  max = 5000,
  step = 0.5,
  large,
  hint,
}: Props) {
  const id = useId();
  const units = useStudio((s) => s.job?.units ?? 'mm');
  const shown = lengthNumber(value, units);
  const { text, changed, type, drop } = useDraft(shown);

  const put = (mm: number) => onChange(Math.min(max, Math.max(min, Number(mm.toFixed(4)))));
  const finish = () => {
    if (!changed) return;
    drop();
    const read = parseSum(text, units);
    if (!read.ok) {
      tell('trouble', read.reason, read.mend);
      return;
    }
    const mm = read.value as number;
    if (mm < min || mm > max)
      tell('note', `${label} may be ${lengthNumber(min, units)} to ${lengthNumber(max, units)} ${units}.`);
    put(mm);
    sealEdits();
  };
  const keys = (e: KeyboardEvent<HTMLInputElement>) => {
    if (e.key === 'Enter') finish();
    else if (e.key === 'Escape') drop();
    else if (e.key === 'ArrowUp' || e.key === 'ArrowDown') {
      e.preventDefault();
      drop();
      put(value + (e.key === 'ArrowUp' ? 1 : -1) * step * (e.shiftKey ? 10 : 1));
    }
  };
  const scrub = useScrub(value, step, put);
  return (
    <div className={`field${large ? ' field-large' : ''}`}>
      <label htmlFor={id} {...scrub}>
        {label}
      </label>
      <span className="field-box">
        <input
          id={id}
          inputMode="decimal"
          value={text}
          title={hint}
          onFocus={(e) => e.target.select()}
          onChange={(e) => type(e.target.value)}
          onBlur={finish}
          onKeyDown={keys}
        />
        <span className="field-unit">{units}</span>
      </span>
    </div>
  );
}
