import { Card, Measure, Toggle } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';

/** How well a flat film lies on this bent wood. */
export function FitCard() {
  const heat = useStudio((s) => s.heat);
  const face = useStudio((s) => s.face);
  const shown = useStudio((s) => s.showHeat);
  const own = heat?.face === face ? heat : null;
  return (
    <Card title="Film on the bend">
      <Toggle
        label="Show where a film can’t lie true"
        on={shown}
        onChange={(on) => useStudio.setState({ showHeat: on })}
      />
      {shown && (
        <>
          <div className="measures">
            <Measure value={own ? Math.abs(own.worstMm).toFixed(2) : '…'} unit="mm" label="greatest misfit" />
            <Measure
              value={own ? Math.abs((own.worstStretch - 1) * 100).toFixed(1) : '…'}
              unit="%"
              label="the film must give, at worst"
            />
          </div>
          <p className="legend">
            <span className="legend-long" /> wood is longer than the film
            <span className="legend-short" /> wood is shorter; a line every 0.25 mm
          </p>
        </>
      )}
    </Card>
  );
}
