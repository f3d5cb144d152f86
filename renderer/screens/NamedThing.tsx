import { useId } from 'react';
import { useDraft } from '../bench/index.ts';

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
  const { text, type, drop } = useDraft(value);
  const finish = () => {
    if (text.trim() !== value) onChange(text.trim());
    drop();
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
        onChange={(e) => type(e.target.value)}
        onBlur={finish}
        onKeyDown={(e) => {
          if (e.key === 'Enter') finish();
          if (e.key === 'Escape') drop();
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
