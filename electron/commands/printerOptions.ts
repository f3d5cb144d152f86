import { customSheet, SHEETS, sheetNamed } from '../../core/film/index.ts';
import type { Job } from '../../core/job/index.ts';
import { badInput, done, type Outcome, parseLength } from '../../core/units/index.ts';
import { type Given, lengthOf, type OptionSpec, unknown } from './options.ts';

/** Options that change the printer for one run; the job keeps its own. */
export const PRINTER_OPTIONS: readonly OptionSpec[] = [
  {
    name: 'sheet',
    value: 'letter|a4|…',
    help: `the film's sheet: ${SHEETS.map((s) => s.name).join(', ')}, or WIDTHxHEIGHT`,
  },
  { name: 'printer-margin', value: 'LENGTH', help: 'what the printer can not reach at each edge (5mm)' },
];

function sheetFrom(text: string): Outcome<{ sheet: string; sheetWidth: number; sheetHeight: number }> {
  const known = sheetNamed(text);
  if (known) return done({ sheet: known.name, sheetWidth: known.width, sheetHeight: known.height });
  const [across, up, more] = text.split(/[x×]/i);
  if (across === undefined || up === undefined || more !== undefined)
    return unknown(
      'sheet',
      text,
      SHEETS.map((s) => s.name),
      'A size of your own is written like 300mmx600mm.',
    );
  const width = parseLength(across);
  if (!width.ok) return width;
  const height = parseLength(up);
  if (!height.ok) return height;
  const sheet = customSheet(width.value, height.value);
  if (!sheet.ok) return sheet;
  return done({ sheet: 'custom', sheetWidth: sheet.value.width, sheetHeight: sheet.value.height });
}

/** The job with the sheet and margin that were asked for. */
export function withPrinter(job: Job, given: Given): Outcome<Job> {
  const margin = lengthOf(given, 'printer-margin', { least: 0, most: 100 });
  if (!margin.ok) return margin;
  let printer = job.printer;
  const wanted = given.text('sheet');
  if (wanted !== undefined) {
    const sheet = sheetFrom(wanted);
    if (!sheet.ok) return sheet;
    printer = { ...printer, ...sheet.value };
  }
  if (margin.value !== undefined) printer = { ...printer, margin: margin.value };
  const known = printer.sheet === 'custom' ? undefined : sheetNamed(printer.sheet);
  const width = known?.width ?? printer.sheetWidth;
  const height = known?.height ?? printer.sheetHeight;
  if (2 * printer.margin >= Math.min(width, height))
    return badInput(
      `Margins of ${printer.margin} mm leave nothing of a sheet of ${width} × ${height} mm.`,
      'Give a larger sheet or a smaller --printer-margin.',
    );
  return done({ ...job, printer });
}
