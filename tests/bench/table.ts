/** Rows of text as a table in Markdown, columns padded so that it reads well unrendered too. */
export function table(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, c) => Math.max(...rows.map((row) => row[c]!.length)));
  const line = (row: readonly string[]) => `| ${row.map((cell, c) => cell.padEnd(widths[c]!)).join(' | ')} |`;
  const rule = `|${widths.map((width) => '-'.repeat(width + 2)).join('|')}|`;
  return [line(rows[0]!), rule, ...rows.slice(1).map(line)].join('\n');
}

export const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

export const ms = (value: number | null): string =>
  value === null || Number.isNaN(value) ? '–' : value < 100 ? value.toFixed(1) : value.toFixed(0);
