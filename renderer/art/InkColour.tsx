import type { Ink } from '../../core/job/index.ts';

/** A colour for drawn things: one of the face's inks, or any other. */
export function InkColour({
  label,
  inks,
  hex,
  onChange,
}: {
  readonly label: string;
  readonly inks: readonly Ink[];
  readonly hex: string;
  readonly onChange: (hex: string) => void;
}) {
  return (
    <fieldset className="ink-colour">
      <legend>{label}</legend>
      <span className="ink-colour-row">
        {inks.map((ink) => {
          const own = ink.matches ?? ink.hex;
          return (
            <button
              key={ink.id}
              type="button"
              className="ink-dot"
              style={{ background: ink.hex }}
              aria-label={ink.name}
              title={ink.name}
              aria-pressed={own === hex}
              onClick={() => onChange(own)}
            />
          );
        })}
        <input
          type="color"
          value={hex}
          aria-label="Another colour"
          title="Another colour"
          onChange={(e) => onChange(e.target.value)}
        />
      </span>
    </fieldset>
  );
}
