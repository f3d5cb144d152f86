import { useState } from 'react';
import { exposureTime, USUAL } from '../../core/press/index.ts';
import { Card, Choice, LengthField, Measure, NumberBox, Toggle } from '../bench/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';
import { Cautions } from './Cautions.tsx';
import { ExposureLog } from './ExposureLog.tsx';
import { NamedThing } from './NamedThing.tsx';
import { Worked } from './Worked.tsx';

/** From the last exposure to the next: tablet, lamp distance, mesh change; and what earlier screens say. */
export function ExposureCard() {
  const job = useStudio((s) => s.job)!;
  const { exposure, emulsion } = job.press;
  const lamps = useStudio((s) => s.shop.lamps);
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
        <NamedThing
          label="Lamp"
          value={exposure?.lamp ?? ''}
          known={lamps}
          onChange={(lamp) => {
            const one = lamps.find((l) => l.name === lamp);
            put({
              lamp,
              ...(one?.distance === undefined ? {} : { distance: one.distance }),
              ...(one?.time === undefined ? {} : { time: one.time }),
            });
          }}
        />
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
        <Toggle label="The mesh is dyed" on={exposure?.dyed ?? false} onChange={(dyed) => put({ dyed })} />
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
        label="Mesh colour since then"
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
      <ExposureLog like={like} target={target} />
      <Cautions of={['exposure', 'washing']} />
    </Card>
  );
}
