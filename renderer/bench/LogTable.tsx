import type { ReactNode } from 'react';

/** A log's newest lines, the newest first, each with a button that takes it out. */
export function LogTable<Line>({
  name,
  columns,
  lines,
  most,
  cells,
  removeName,
  remove,
}: {
  name: string;
  /** Heads, in order; `number`: its cells stand at the right. */
  columns: readonly { readonly head: string; readonly number?: boolean }[];
  lines: readonly Line[];
  /** Lines that are listed. */
  most: number;
  cells: (line: Line) => readonly ReactNode[];
  /** What the button of the line with this number, from 1, is called. */
  removeName: (line: number) => string;
  /** Takes out the line at this place, from 0. */
  remove: (at: number) => void;
}) {
  const listed = lines.map((line, at) => ({ line, at })).slice(-most);
  const styleOf = (column: number) => (columns[column]?.number ? 'number' : undefined);
  return (
    <table className="plain-table" aria-label={name}>
      <thead>
        <tr>
          {columns.map(({ head }, k) => (
            <th key={head} className={styleOf(k)}>
              {head}
            </th>
          ))}
          <th />
        </tr>
      </thead>
      <tbody>
        {listed
          .map(({ line, at }) => (
            <tr key={at}>
              {cells(line).map((cell, k) => (
                <td key={columns[k]?.head} className={styleOf(k)}>
                  {cell}
                </td>
              ))}
              <td>
                <button type="button" aria-label={removeName(at + 1)} onClick={() => remove(at)}>
                  Remove
                </button>
              </td>
            </tr>
          ))
          .reverse()}
      </tbody>
    </table>
  );
}
