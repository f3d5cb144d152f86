import { useEffect, useId, useState } from 'react';

/** The name of a thing of the shop: those that are kept are offered, others may be typed. */
export function NamedThing({
  label,
  value,
  known,
  onChange,
}: {
  label: string;
  value: string;
  known: readonly { readonly name: string }[];
  onChange: (name: string) => void;
}) {
  const id = useId();
  const [text, setText] = useState(value);
  useEffect(() => setText(value), [value]);
  const finish = () => {
    if (text.trim() !== value) onChange(text.trim());
  };
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        list={`${id}-known`}
        value={text}
        maxLength={120}
        placeholder="its name"
        onChange={(e) => setText(e.target.value)}
        onBlur={finish}
        onKeyDown={(e) => {
          if (e.key === 'Enter') finish();
          if (e.key === 'Escape') setText(value);
        }}
      />
      <datalist id={`${id}-known`}>
        {known.map(({ name }) => (
          <option key={name} value={name} />
        ))}
      </datalist>
    </div>
  );
}
