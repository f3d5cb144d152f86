import { useState } from 'react';
import type { Deck, Pixels } from '../../../core/deck/index.ts';
import { shell } from '../../acts/index.ts';
import { Card } from '../../bench/index.ts';
import { edit, tell, useStudio } from '../../state/index.ts';
import { TraceDialog } from './TraceDialog.tsx';

/** Longer side a photograph is traced at, px: about 4 to a mm of a deck, so that a tenth of a mm can be told. */
const TRACE_SIDE = 3600;

/** An outline from a picture of a deck, or of a tracing of one, laid flat. */
export function TraceCard({ deck }: { deck: Deck }) {
  const [open, setOpen] = useState<{ picture: Pixels; name: string } | null>(null);
  const [busy, setBusy] = useState(false);
  const outline = useStudio((s) => s.job?.deck.outline);
  const choose = async () => {
    const picked = await shell().pickArt();
    if (!picked.ok) {
      if (picked.kind !== 'cancelled') tell('trouble', picked.reason, picked.mend);
      return;
    }
    const file = picked.value[0];
    if (!file) return;
    setBusy(true);
    const decoded = await shell().decodeArt(file.bytes, file.name, TRACE_SIDE);
    setBusy(false);
    if (!decoded.ok) return tell('trouble', decoded.reason, decoded.mend);
    const { width, height, data } = decoded.value;
    setOpen({
      picture: { width: width as number, height: height as number, data: data.slice() },
      name: file.name,
    });
  };
  return (
    <Card title="Trace a photograph">
      <p className="hint">
        Lay the deck, or a tracing of it, on a ground much lighter or darker than it and take the picture from
        straight above. Its truck holes square it and give it its size.
      </p>
      {outline?.kind === 'path' && <p>Outline now from {outline.source || 'a file'}.</p>}
      <button type="button" className="trace-choose" onClick={choose} disabled={busy}>
        {busy ? 'Reading the picture …' : 'Choose a picture …'}
      </button>
      {open && (
        <TraceDialog
          deck={deck}
          picture={open.picture}
          name={open.name}
          onTake={(traced) => edit(`Take outline of ${open.name}`, (job) => ({ ...job, deck: traced }))}
          onClose={() => setOpen(null)}
        />
      )}
    </Card>
  );
}
