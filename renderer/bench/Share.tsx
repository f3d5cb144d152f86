import { useId } from 'react';
import { sealEdits } from '../state/index.ts';

/** A share from 0 to 100 %, by a slider. */
export function Share({
  label,
  value,
  onChange,
}: {
  label: string;
  value: number;
  onChange: (share: number) => void;
}) {
  const id = useId();
  return (
    <div className="share">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="range"
        min={0}
        max={100}
        value={Math.round(value * 100)}
        onChange={(e) => onChange(Number(e.target.value) / 100)}
        onPointerUp={sealEdits}
        onBlur={sealEdits}
      />
      <output htmlFor={id}>{Math.round(value * 100)} %</output>
    </div>
  );
}
