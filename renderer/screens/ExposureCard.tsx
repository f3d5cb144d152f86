import { useState } from 'react';
import { type BurnedScreen, exposureHistory, exposureTime, USUAL } from '../../core/press/index.ts';
import { Card, Choice, LengthField, Measure, NumberBox, Toggle } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';
import { Cautions } from './Cautions.tsx';
import { ExposurePlot } from './ExposurePlot.tsx';
import { Worked } from './Worked.tsx';

/** From the last exposure to the next: tablet, lamp distance, mesh change; and what earlier screens say. */
export function ExposureCard() {
  const job = useStudio((s) => s.job)!;
  const { exposure, burned = [], emulsion } = job.press;
  const time = exposure?.time ?? USUAL.testTime.value;
  const target = exposure?.targetStep ?? USUAL.targetStep.value;
  const distance = exposure?.distance ?? 500;
  const [read, setRead] = useState<number | null>(null);
  const [moved, setMoved] = useState<number | null>(null);
  const [mesh, setMesh] = useState<'same' | 'to-dyed' | 'to-white'>('same');
  const [meshPerCm, setMeshPerCm] = useState(77);
  const put = (change: Partial<NonNullable<typeof exposure>>) =>
    edit(
      'Change exposure',
      (j) => changePress(j, { exposure: { ...j.press.exposure, ...change } }),
      `exposure ${Object.keys(change)}`,
    );
  const found = exposureTime({
    time,
    targetStep: target,
    mesh,
    ...(read === null ? {} : { stepRead: read }),
    ...(moved === null ? {} : { distance, newDistance: moved }),
  });
  const dyedNow = mesh === 'to-dyed' || (mesh === 'same' && (exposure?.dyed ?? false));
  const like = {
    emulsion: emulsion?.name ?? '',
    lamp: exposure?.lamp ?? '',
    meshPerCm,
    dyed: exposure?.dyed ?? false,
    distance,
  };
  const log = burned as unknown as readonly BurnedScreen[];
  const history = exposureHistory(log, like);
  const keep = (next: number) => {
    edit('Use the new exposure', (j) =>
      changePress(j, {
        exposure: {
          ...j.press.exposure,
          time: Number(next.toFixed(1)),
          distance: moved ?? distance,
          dyed: dyedNow,
        },
      }),
    );
    setRead(null);
    setMoved(null);
    setMesh('same');
  };
  const write = () =>
    edit('Write down a burned screen', (j) =>
      changePress(j, {
        burned: [
          ...(j.press.burned ?? []),
          { ...like, time, targetStep: target, ...(read === null ? {} : { step: read }) },
        ],
      }),
    );
  return (
    <Card title="Exposure" wide>
      <div className="fields">
        <NumberBox
          label="Last exposure"
          value={time}
          min={0.1}
          max={86_400}
          unit="s"
          onChange={(n) => put({ time: n })}
        />
        <NumberBox
          label="Step wanted"
          value={target}
          min={1}
          max={41}
          onChange={(n) => put({ targetStep: n })}
        />
        <LengthField
          label="Lamp to glass"
          value={distance}
          min={1}
          max={20_000}
          step={10}
          onChange={(n) => put({ distance: n })}
        />
        <NumberBox label="Mesh" value={meshPerCm} min={5} max={250} unit="/cm" onChange={setMeshPerCm} />
      </div>
      <div className="fields">
        <Toggle label="Step tablet read" on={read !== null} onChange={(on) => setRead(on ? target : null)} />
        {read !== null && (
          <NumberBox label="Last solid step" value={read} min={1} max={41} onChange={setRead} />
        )}
        <Toggle label="Lamp moved" on={moved !== null} onChange={(on) => setMoved(on ? distance : null)} />
        {moved !== null && (
          <LengthField label="Now" value={moved} min={1} max={20_000} step={10} onChange={setMoved} />
        )}
      </div>
      <Choice
        label="Mesh colour"
        value={mesh}
        options={[
          { value: 'same', label: 'as before' },
          { value: 'to-dyed', label: 'white to dyed' },
          { value: 'to-white', label: 'dyed to white' },
        ]}
        onChange={setMesh}
      />
      <Worked found={found}>
        {({ time: next, factors }) => (
          <>
            <div className="measures">
              <Measure value={next < 20 ? next.toFixed(1) : next.toFixed(0)} unit="s" label="next exposure" />
              <Measure
                value={`× ${(factors.tablet * factors.distance * factors.mesh).toFixed(2)}`}
                label="of the last"
              />
            </div>
            <div className="row-buttons">
              <button type="button" onClick={() => keep(next)}>
                Use it
              </button>
              <button type="button" onClick={write}>
                Write down the last screen
              </button>
            </div>
          </>
        )}
      </Worked>
      {log.length > 0 && <ExposurePlot log={log} target={target} />}
      {history && (
        <p className="hint">
          {history.count} earlier {history.count === 1 ? 'screen' : 'screens'} of this emulsion, lamp and mesh
          say <b>{history.time.toFixed(0)} s</b>
          {history.count > 1 && <>, give or take × {history.spread.toFixed(2)}</>}.
        </p>
      )}
      <Cautions of={['exposure', 'washing']} />
    </Card>
  );
}
