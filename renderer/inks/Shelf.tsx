import { useRef } from 'react';
import { inkTaken } from '../../core/job/index.ts';
import { shelfInk, shelfOf } from '../../core/shop/index.ts';
import { paletteToShelf, putOnShelf, shelfToPalette, takeOffShelf } from '../acts/index.ts';
import { Card, Icon } from '../bench/index.ts';
import { addInk, edit, useStudio } from '../state/index.ts';

/** More text than any palette of inks. */
const MOST_BYTES = 1024 * 1024;

/** The inks the printer owns, kept between jobs. */
export function Shelf() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const shop = useStudio((s) => s.shop);
  const shelf = shelfOf(shop);
  const picker = useRef<HTMLInputElement>(null);
  const { inks } = job.faces[face];
  const unkept = inks.filter((ink) => !shelf.some((known) => known.hex === ink.hex));
  const read = async (file: File | undefined) => {
    if (file) await paletteToShelf(file.name, await file.slice(0, MOST_BYTES).text());
    if (picker.current) picker.current.value = '';
  };
  return (
    <Card
      title="My ink shelf"
      action={
        unkept.length > 0 && (
          <button
            type="button"
            className="tape-button"
            onClick={() => void putOnShelf(unkept.map(shelfInk))}
            title="Puts this face’s inks on the shelf"
          >
            <Icon name="plus" /> This face’s inks
          </button>
        )
      }
    >
      <p className="hint">
        {shelf.length === 0
          ? 'Inks you own, kept on this machine for every job. Put this face’s inks on it, or open a palette.'
          : 'Kept on this machine for every job. Click an ink to add it to this face.'}
      </p>
      {shelf.length > 0 && (
        <ul className="shelf" aria-label="Inks on the shelf">
          {shelf.map((ink) => (
            <li key={ink.hex}>
              <button
                type="button"
                onClick={() => {
                  const own = inkTaken(ink, inks);
                  edit(`Add ${ink.name}`, (j) => addInk(j, face, own));
                  useStudio.setState({ inkId: own.id });
                }}
              >
                <span className="ink-drop" style={{ background: ink.hex }} />
                <span>{ink.name}</span>
                {ink.measured && <small>measured</small>}
              </button>
              <button
                type="button"
                aria-label={`Take ${ink.name} off the shelf`}
                onClick={() => void takeOffShelf(ink.hex)}
              >
                <Icon name="bin" />
              </button>
            </li>
          ))}
        </ul>
      )}
      <div className="shelf-files">
        <button type="button" onClick={() => picker.current?.click()}>
          <Icon name="open" /> Open a palette
        </button>
        <button type="button" disabled={shelf.length === 0} onClick={() => void shelfToPalette()}>
          <Icon name="save" /> Save as a palette
        </button>
        <input
          ref={picker}
          type="file"
          accept=".gpl,.json"
          hidden
          aria-label="Palette to open"
          onChange={(e) => void read(e.target.files?.[0])}
        />
      </div>
    </Card>
  );
}
