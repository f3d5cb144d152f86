import { STATION_TITLES, STATIONS, useStudio } from '../state/index.ts';

/** Seven plies on edge, kicked up at both ends; one is stained. */
const PLIES = ['light', 'dark', 'light', 'stain', 'light', 'dark', 'light'].map((ply, i) => ({
  ply: `ply-${ply}`,
  y: 17 + i * 2.3,
}));

/** The stations from tail to nose, along the edge of a deck. */
export function Rail() {
  const station = useStudio((s) => s.station);
  return (
    <nav className="rail" aria-label="Stations">
      <svg className="rail-ply" viewBox="0 0 1000 34" preserveAspectRatio="none" aria-hidden="true">
        {PLIES.map(({ ply, y }) => (
          <path
            key={y}
            className={ply}
            d={`M0 ${y - 15}C26 ${y - 6} 46 ${y} 84 ${y}H916C954 ${y} 974 ${y - 6} 1000 ${y - 15}`}
          />
        ))}
      </svg>
      <ol>
        {STATIONS.map((s) => (
          <li key={s}>
            <button
              type="button"
              aria-current={s === station ? 'step' : undefined}
              onClick={() => useStudio.setState({ station: s, pointer: null, selection: [] })}
            >
              {STATION_TITLES[s]}
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}
