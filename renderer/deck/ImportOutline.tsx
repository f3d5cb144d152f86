import { useRef } from 'react';
import { type Deck, deckWithOutline, importOutlineDxf, importOutlineSvg } from '../../core/deck/index.ts';
import { tell } from '../state/index.ts';

/** Bytes of the largest drawing that is read; the readers have limits of their own. */
const MOST_BYTES = 8 * 1024 * 1024;

/** Takes the outline of a drawing: one closed path in SVG or DXF, at its true size. */
export function ImportOutline({ deck, onTake }: { deck: Deck; onTake: (deck: Deck, name: string) => void }) {
  const input = useRef<HTMLInputElement>(null);
  const read = async (file: File) => {
    if (file.size > MOST_BYTES)
      return tell('trouble', `“${file.name}” is larger than 8 MB.`, 'Keep only the outline in the file.');
    const text = await file.text();
    const options = { source: file.name };
    const found = /\.dxf$/i.test(file.name)
      ? importOutlineDxf(text, options)
      : importOutlineSvg(text, options);
    if (!found.ok) return tell('trouble', found.reason, found.mend);
    onTake({ ...deckWithOutline(deck, found.value), name: file.name }, file.name);
  };
  return (
    <>
      <button type="button" className="trace-choose" onClick={() => input.current?.click()}>
        Open an outline, SVG or DXF …
      </button>
      <input
        ref={input}
        type="file"
        accept=".svg,.dxf"
        hidden
        aria-label="Outline file"
        onChange={(e) => {
          const file = e.target.files?.[0];
          if (file) void read(file);
          // The same file may be opened again after it was mended.
          e.target.value = '';
        }}
      />
    </>
  );
}
