import { NumberBox, TextBox } from '../bench/index.ts';

/** A column of a list of the shop: words, or a number that may be left out. */
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

/** A list of things the shop has, each figure editable; the first is what a new job begins with. */
export function ShopTable({
  title,
  rows,
  columns,
  one,
  fresh,
  onChange,
}: {
  title: string;
  /** One of them, for the button that adds one. */
  one: string;
  rows: readonly Row[];
  columns: readonly Column[];
  /** A row to begin with. */
  fresh: Row;
  onChange: (rows: Row[]) => void;
}) {
  const change = (at: number, key: string, value: unknown) =>
    onChange(
      rows.map((row, i) => {
        if (i !== at) return row;
        const { [key]: _, ...rest } = row;
        return value === undefined ? rest : { ...rest, [key]: value };
      }),
    );
  const nameOf = (row: Row, i: number) => String(row['name'] ?? `${title} ${i + 1}`);
  return (
    <section className="shop-list" aria-label={title}>
      <h3>{title}</h3>
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
                <td className="shop-acts">
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
