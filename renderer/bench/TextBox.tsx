import { useDraft } from './useDraft.ts';

/** A short text that is handed on when it is left or Enter is pressed; an empty one falls back to what it was. */
export function TextBox({
  label,
  value,
  onChange,
  most = 120,
}: {
  label: string;
  value: string;
  onChange: (text: string) => void;
  most?: number;
}) {
  const { text, type, drop } = useDraft(value);
  const finish = () => {
    const next = text.trim();
    if (next !== '' && next !== value) onChange(next);
    drop();
  };
  return (
    <input
      className="text-box"
      aria-label={label}
      value={text}
      maxLength={most}
      onChange={(e) => type(e.target.value)}
      onBlur={finish}
      onKeyDown={(e) => {
        if (e.key === 'Enter') finish();
        if (e.key === 'Escape') drop();
      }}
    />
  );
}
