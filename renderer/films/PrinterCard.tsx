import { ROLL_WIDTHS, rollWidth, SHEETS } from '../../core/film/index.ts';
import { Card, LengthField, Pick, Toggle } from '../bench/index.ts';
import { changePrinter, edit, useStudio } from '../state/index.ts';
import { MediumFields } from './MediumFields.tsx';
import { ShopPrinters } from './ShopPrinters.tsx';

const SHEET_WORDS: Readonly<Record<string, string>> = {
  a3plus: 'A3+',
  'ansi-c': 'ANSI C',
  'ansi-d': 'ANSI D',
};
const sheetWord = (name: string) => SHEET_WORDS[name] ?? name.charAt(0).toUpperCase() + name.slice(1);

/** The printer and its sheets. */
export function PrinterCard() {
  const job = useStudio((s) => s.job)!;
  const { printer } = job;
  const put = (label: string, change: Partial<typeof printer>) =>
    edit(label, (j) => changePrinter(j, change), `printer ${Object.keys(change)}`);
  const custom = printer.sheet === 'custom';
  return (
    <Card title="Printer and sheets">
      <ShopPrinters />
      <Pick
        label="Film sheets"
        value={printer.sheet}
        options={[
          ...SHEETS.map((s) => ({
            value: s.name,
            label: `${sheetWord(s.name)}, ${s.width} × ${s.height} mm`,
          })),
          ...[...new Set([...ROLL_WIDTHS, rollWidth(printer.sheet) ?? ROLL_WIDTHS[0]!])].map((width) => ({
            value: `roll-${width}`,
            label: `Roll, ${width} mm wide`,
          })),
          { value: 'custom', label: 'Another size' },
        ]}
        onChange={(name) => {
          const sheet = SHEETS.find((s) => s.name === name);
          put('Change sheet', {
            sheet: name,
            ...(sheet ? { sheetWidth: sheet.width, sheetHeight: sheet.height } : {}),
          });
        }}
      />
      {custom && (
        <div className="fields">
          <LengthField
            label="Sheet width"
            value={printer.sheetWidth}
            min={20}
            max={5000}
            step={1}
            onChange={(sheetWidth) => put('Change sheet', { sheetWidth })}
          />
          <LengthField
            label="Sheet height"
            value={printer.sheetHeight}
            min={20}
            max={20000}
            step={1}
            onChange={(sheetHeight) => put('Change sheet', { sheetHeight })}
          />
        </div>
      )}
      <div className="fields">
        <Pick
          label="Dots an inch"
          value={String(printer.dpi)}
          options={[...new Set([300, 600, 1200, printer.dpi])]
            .sort((a, b) => a - b)
            .map((d) => ({ value: String(d), label: `${d} dpi` }))}
          onChange={(d) => put('Change dpi', { dpi: Number(d) })}
        />
        <LengthField
          label="Can't print within"
          value={printer.margin}
          min={0}
          max={100}
          onChange={(margin) => put('Change margin', { margin })}
        />
        <LengthField
          label="Sheets share"
          value={printer.overlap}
          min={0}
          max={100}
          step={1}
          onChange={(overlap) => put('Change overlap', { overlap })}
        />
      </div>
      <Toggle
        label="Mirror the films"
        on={printer.mirror}
        onChange={(mirror) => put('Change mirror', { mirror })}
      />
      <p className="hint">
        Off: right reading, toner side up; the film lies toner-down on the print side of the screen.
      </p>
      <Toggle
        label="Small films share a sheet"
        hint="with a cut line between them"
        on={printer.shareSheets ?? false}
        onChange={(shareSheets) => put('Change sharing', { shareSheets })}
      />
      <Pick
        label="Marks of a small graphic"
        value={printer.filmMarks ?? 'auto'}
        options={[
          { value: 'auto', label: 'Whichever takes fewer sheets' },
          { value: 'deck', label: 'With all truck holes' },
          { value: 'art', label: 'Close about the art' },
        ]}
        onChange={(filmMarks) => put('Change marks', { filmMarks: filmMarks as 'auto' | 'deck' | 'art' })}
      />
      <MediumFields />
    </Card>
  );
}
