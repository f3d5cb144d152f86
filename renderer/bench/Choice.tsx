import { type ReactNode, useId } from 'react';

interface Props<T extends string> {
  readonly label: string;
  readonly value: T | null;
  readonly options: readonly { readonly value: T; readonly label: ReactNode; readonly hint?: string }[];
  readonly onChange: (value: T) => void;
  readonly hideLabel?: boolean;
}

/** One of a few, side by side. */
export function Choice<T extends string>({ label, value, options, onChange, hideLabel }: Props<T>) {
  const name = useId();
  return (
    <fieldset className="choice">
      <legend className={hideLabel ? 'unseen' : ''}>{label}</legend>
      <span className="choice-row">
        {options.map((o) => (
          <label key={o.value} title={o.hint}>
            <input type="radio" name={name} checked={o.value === value} onChange={() => onChange(o.value)} />
            <span>{o.label}</span>
          </label>
        ))}
      </span>
    </fieldset>
  );
}

/** One of many, by name. */
export function Pick<T extends string>({ label, value, options, onChange, hideLabel }: Props<T>) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id} className={hideLabel ? 'unseen' : ''}>
        {label}
      </label>
      <select id={id} value={value ?? ''} onChange={(e) => onChange(e.target.value as T)}>
        {options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.label as string}
          </option>
        ))}
      </select>
    </div>
  );
}

/** On or off. */
export function Toggle({
  label,
  on,
  onChange,
  hint,
}: {
  label: string;
  on: boolean;
  onChange: (on: boolean) => void;
  hint?: string;
}) {
  return (
    <label className="toggle" title={hint}>
      <input
        type="checkbox"
        role="switch"
        checked={on}
        aria-checked={on}
        onChange={(e) => onChange(e.target.checked)}
      />
      <span className="toggle-track" aria-hidden="true" />
      <span>{label}</span>
    </label>
  );
}
