import { ArtStation } from '../art/index.ts';
import { DeckStation } from '../deck/index.ts';
import { FilmsStation } from '../films/index.ts';
import { InksStation } from '../inks/index.ts';
import { PressStation } from '../press/index.ts';
import { ScreensStation } from '../screens/index.ts';
import { STATION_TITLES, type Station, useStudio } from '../state/index.ts';
import { TrapsStation } from '../traps/index.ts';
import { Hint } from './Hint.tsx';

const CARDS: Readonly<Record<Station, () => React.JSX.Element>> = {
  deck: DeckStation,
  art: ArtStation,
  inks: InksStation,
  traps: TrapsStation,
  films: FilmsStation,
  screens: ScreensStation,
  press: PressStation,
};

/** The cards of the open station, on the bench under the deck. */
export function Bench() {
  const station = useStudio((s) => s.station);
  const Cards = CARDS[station];
  return (
    <main className="bench" aria-label={`${STATION_TITLES[station]}: cards on the bench`} key={station}>
      <Hint station={station} />
      <Cards />
    </main>
  );
}
