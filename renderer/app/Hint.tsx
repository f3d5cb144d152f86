import { useRef } from 'react';
import { EMPTY_SHOP } from '../../core/shop/index.ts';
import { setBench } from '../acts/index.ts';
import { useRows } from '../bench/index.ts';
import { GUIDE_AT } from '../guide/index.ts';
import { STATION_TITLES, type Station, useStudio } from '../state/index.ts';

/** One or two sentences a station, for the first time one stands there. */
const HINTS: Readonly<Record<Station, string>> = {
  deck: 'Start with the nearest shape, then put your own wood’s measures in its place. A length may be typed as 210mm, 21cm or 8 1/4".',
  art: 'Drag the art on the board; the arrow keys nudge it by 1 mm, with Shift by 10, with Alt by 0.1. The dashed line is as far as ink may go.',
  inks: 'Pulls print from the top of the list down: drag one to change the order. The round chips on the board show the print on each stain.',
  traps:
    'Lighter inks run a little under darker ones, so that no wood shows when a screen moves. Move a pull below and look at the deck.',
  films:
    'Each film is cut into sheets your printer takes. Drag a boundary on the deck and the cut finds the place where least is drawn.',
  screens:
    'These figures follow from your films. Put in what your own mesh, lamp and emulsion say, and they follow that instead.',
  press:
    'Pull a test on paper, read the verniers, and type what they say: the clamps’ correction comes out in millimetres and in words.',
};

/** What to try first at this station; gone for good once it is put away. */
export function Hint({ station }: { readonly station: Station }) {
  const seen = useStudio(
    // Until the program has said what was put away, nothing is shown.
    (s) => s.shop === EMPTY_SHOP || s.shop.bench?.hintsSeen?.includes(station),
  );
  return seen ? null : <Strip station={station} />;
}

function Strip({ station }: { readonly station: Station }) {
  const element = useRef<HTMLElement>(null);
  useRows(element);
  const putAway = (stations: readonly Station[]) =>
    void setBench((bench) => ({ hintsSeen: [...new Set([...(bench.hintsSeen ?? []), ...stations])] }));
  return (
    <aside ref={element} className="first-hint" aria-label={`First time at ${STATION_TITLES[station]}`}>
      <p>{HINTS[station]}</p>
      <button type="button" onClick={() => useStudio.setState({ guidePage: GUIDE_AT[station] })}>
        Read more
      </button>
      <button type="button" onClick={() => putAway([station])}>
        Got it
      </button>
      <button type="button" onClick={() => putAway(Object.keys(HINTS) as Station[])}>
        No more hints
      </button>
    </aside>
  );
}
