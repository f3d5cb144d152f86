import { NumberBox } from './NumberBox.tsx';
import { TextBox } from './TextBox.tsx';

/** A column of a list of things: words, or a number that may be left out. */
export type Column = {
  readonly key: string;
  readonly label: string;
} & (
  | { readonly kind: 'words' }
  | {
      readonly kind: 'number';
      readonly min: number;
      readonly max: number;
      readonly unit?: string;
      readonly digits?: number;
      readonly step?: number;
      /** A row must state it. */
      readonly always?: boolean;
    }
);

type Row = Readonly<Record<string, unknown>>;

/** A list of things with figures, each editable; any can be put first. */
export function ThingTable({
  title,
  rows,
  columns,
  one,
  fresh,
  onChange,
  bare,
}: {
  title: string;
  /** One of them, for the button that adds one. */
  one: string;
  rows: readonly Row[];
  columns: readonly Column[];
  /** A row to begin with. */
  fresh: Row;
  onChange: (rows: Row[]) => void;
  /** The title stands elsewhere. */
  bare?: boolean;
}) {
  const change = (at: number, key: string, value: unknown) =>
    onChange(
      rows.map((row, i) => {
        if (i !== at) return row;
        const { [key]: _, ...rest } = row;
        return value === undefined ? rest : { ...rest, [key]: value };
      }),
    );
  const nameOf = (row: Row, i: number) => String(row['name'] ?? `number ${i + 1} of ${title}`);
  return (
    <section className="thing-list" aria-label={title}>
      {!bare && <h3>{title}</h3>}
      {rows.length > 0 && (
        <table className="plain-table">
          <thead>
            <tr>
              {columns.map((c) => (
                <th key={c.key}>{c.label}</th>
              ))}
              <th />
            </tr>
          </thead>
          <tbody>
            {rows.map((row, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a name is edited in its row
              <tr key={i}>
                {columns.map((c) => (
                  <td key={c.key}>
                    {c.kind === 'words' ? (
                      <TextBox
                        label={`${c.label} of ${nameOf(row, i)}`}
                        value={String(row[c.key] ?? '')}
                        onChange={(text) => change(i, c.key, text)}
                      />
                    ) : (
                      <NumberBox
                        label={`${c.label} of ${nameOf(row, i)}`}
                        hideLabel
                        value={Number(row[c.key] ?? 0)}
                        min={c.always ? c.min : 0}
                        max={c.max}
                        {...(c.unit === undefined ? {} : { unit: c.unit })}
                        {...(c.step === undefined ? {} : { step: c.step })}
                        digits={c.digits ?? 2}
                        onChange={(n) =>
                          change(i, c.key, !c.always && n === 0 ? undefined : Math.max(c.min, n))
                        }
                      />
                    )}
                  </td>
                ))}
                <td className="thing-acts">
                  {i > 0 && (
                    <button
                      type="button"
                      onClick={() => onChange([row, ...rows.filter((_, k) => k !== i)])}
                      aria-label={`${nameOf(row, i)} first`}
                    >
                      First
                    </button>
                  )}
                  <button
                    type="button"
                    onClick={() => onChange(rows.filter((_, k) => k !== i))}
                    aria-label={`Remove ${nameOf(row, i)}`}
                  >
                    Remove
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <button type="button" onClick={() => onChange([...rows, fresh])}>
        Add {one}
      </button>
    </section>
  );
}
