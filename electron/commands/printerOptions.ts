import { customSheet, ROLL_WIDTHS, rollWidth, SHEETS, sheetNamed } from '../../core/film/index.ts';
import type { Job } from '../../core/job/index.ts';
import { optionTrouble, shopTrouble } from '../../core/sentences/index.ts';
import { sameName } from '../../core/shop/index.ts';
import { done, type Outcome, parseLength } from '../../core/units/index.ts';
import { shopFile, stateDir } from '../host/index.ts';
import { choiceOf, type Given, lengthOf, type OptionSpec, unknown } from './options.ts';

/** Options that change the printer for one run; the job keeps its own. */
export const PRINTER_OPTIONS: readonly OptionSpec[] = [
  {
    name: 'printer',
    value: 'NAME',
    help: 'one of your shop’s printers as it was measured: sheet, margin, dpi, scale, lean, film (kickflat shop lists them)',
  },
  {
    name: 'sheet',
    value: 'letter|a4|…',
    help: `the film's sheet: ${SHEETS.map((s) => s.name).join(', ')}, ${ROLL_WIDTHS.map((w) => `roll-${w}`).join(', ')} or another roll's width in mm, or WIDTHxHEIGHT`,
  },
  { name: 'share-sheets', help: 'small films of a face may lie together on a sheet, with cut lines between' },
  {
    name: 'marks',
    value: 'auto|deck|art',
    help: 'common marks with all truck holes (deck), close about the art (art), or whichever takes fewer sheets (auto)',
  },
  { name: 'printer-margin', value: 'LENGTH', help: 'what the printer can not reach at each edge (5mm)' },
];

function sheetFrom(text: string): Outcome<{ sheet: string; sheetWidth: number; sheetHeight: number }> {
  const known = sheetNamed(text);
  if (known) return done({ sheet: known.name, sheetWidth: known.width, sheetHeight: known.height });
  const roll = rollWidth(text);
  if (roll !== undefined) {
    const sheet = customSheet(roll, roll);
    if (!sheet.ok) return sheet;
    // A roll's page is as long as the deck needs; the layout finds out.
    return done({ sheet: `roll-${roll}`, sheetWidth: roll, sheetHeight: roll });
  }
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

/** The shop's printer that was asked for by name; the job's own where none was. */
async function namedPrinter(job: Job, given: Given): Promise<Outcome<Job['printer']>> {
  const name = given.text('printer');
  if (name === undefined) return done(job.printer);
  const shop = await shopFile(stateDir()).read();
  if (!shop.ok) return shop;
  const { printers } = shop.value;
  const found = printers.find((one) => sameName(one.name, name));
  if (found) return done(found);
  if (printers.length > 0)
    return unknown(
      'printer',
      name,
      printers.map((one) => one.name),
      'kickflat shop lists those your shop keeps.',
    );
  return shopTrouble.noPrinter();
}

/** The job with the printer, sheet, margin and marks that were asked for. */
export async function withPrinter(job: Job, given: Given): Promise<Outcome<Job>> {
  const margin = lengthOf(given, 'printer-margin', { least: 0, most: 100 });
  if (!margin.ok) return margin;
  const named = await namedPrinter(job, given);
  if (!named.ok) return named;
  let printer = named.value;
  const wanted = given.text('sheet');
  if (wanted !== undefined) {
    const sheet = sheetFrom(wanted);
    if (!sheet.ok) return sheet;
    printer = { ...printer, ...sheet.value };
  }
  const marks = choiceOf(given, 'marks', ['auto', 'deck', 'art']);
  if (!marks.ok) return marks;
  if (marks.value !== undefined) printer = { ...printer, filmMarks: marks.value };
  if (given.flag('share-sheets')) printer = { ...printer, shareSheets: true };
  if (margin.value !== undefined) printer = { ...printer, margin: margin.value };
  const known = printer.sheet === 'custom' ? undefined : sheetNamed(printer.sheet);
  const width = known?.width ?? printer.sheetWidth;
  const height = known?.height ?? printer.sheetHeight;
  if (2 * printer.margin >= Math.min(width, height))
    return optionTrouble.marginsTooWide(printer.margin, width, height);
  return done({ ...job, printer });
}
