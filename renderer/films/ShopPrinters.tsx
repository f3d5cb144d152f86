import { sameName, samePrinter, withPrinterFirst } from '../../core/shop/index.ts';
import { changeShop } from '../acts/index.ts';
import { Pick, TextBox } from '../bench/index.ts';
import { changePrinter, edit, useStudio } from '../state/index.ts';

/** The shop's printers as they were measured: one is taken for this job, or this job's is kept for the next. */
export function ShopPrinters() {
  const { printer } = useStudio((s) => s.job)!;
  const printers = useStudio((s) => s.shop.printers);
  const kept = printers.find((one) => sameName(one.name, printer.name));
  const same = kept !== undefined && samePrinter(kept, printer);
  return (
    <>
      {printers.length > 0 && (
        <Pick
          label="Printer"
          value={kept ? kept.name : ''}
          options={[
            ...(kept ? [] : [{ value: '', label: `${printer.name || 'This job’s own'} (only in this job)` }]),
            ...printers.map(({ name }) => ({ value: name, label: name })),
          ]}
          onChange={(name) => {
            const chosen = printers.find((one) => one.name === name);
            if (chosen) edit('Take a printer', (j) => ({ ...j, printer: chosen }));
          }}
        />
      )}
      <div className="field">
        <span className="hint">Its name in your shop</span>
        <TextBox
          label="Its name in your shop"
          value={printer.name}
          onChange={(name) =>
            edit('Name the printer', (j) => changePrinter(j, { name: name.slice(0, 120) }), 'printer name')
          }
        />
      </div>
      <button
        type="button"
        disabled={printer.name.trim() === '' || same}
        onClick={() =>
          void changeShop(
            (shop) => ({ ...shop, printers: withPrinterFirst(shop.printers, printer) }),
            `“${printer.name}” is kept for your next jobs, with its sheet, margins and what was measured.`,
          )
        }
      >
        {same ? 'Kept in your shop' : kept ? 'Keep its changes for the shop' : 'Keep it for the shop'}
      </button>
    </>
  );
}
