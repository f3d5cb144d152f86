import { blankMask, getBit, type Mask, setBit } from './mask.ts';

/**
 * A mask from a drawing: rows from the top parted by `/` or line ends, `#` ink and `.` bare. For tests and small
 * patterns. Throws when a row's length differs from the first or another sign appears.
 */
export function maskOf(drawing: string): Mask {
  const rows = drawing
    .split(/[/\n]/)
    .map((row) => row.trim())
    .filter((row) => row !== '');
  const width = rows[0]?.length ?? 0;
  const mask = blankMask(width, rows.length);
  rows.forEach((row, y) => {
    if (row.length !== width || /[^.#]/.test(row))
      throw new RangeError(`Row ${y} of the drawing must be ${width} signs of . and #, but is "${row}".`);
    for (let x = 0; x < width; x++) if (row[x] === '#') setBit(mask, x, y);
  });
  return mask;
}

/** The drawing of a mask, as `maskOf` reads it: rows parted by ` / `. */
export function draw(mask: Mask): string {
  const rows: string[] = [];
  for (let y = 0; y < mask.height; y++) {
    let row = '';
    for (let x = 0; x < mask.width; x++) row += getBit(mask, x, y) ? '#' : '.';
    rows.push(row);
  }
  return rows.join(' / ');
}
