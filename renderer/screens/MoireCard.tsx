import { useEffect, useMemo, useRef, useState } from 'react';
import type { MoireInput } from '../../core/press/index.ts';
import { meshOf } from '../../core/runOf.ts';
import { Card, Measure, NumberBox } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';
import { back, latestWins } from '../workers/index.ts';
import { Worked } from './Worked.tsx';

/** mm a side of the picture, and its points a mm. */
const SIDE = 20;
const POINTS = 10;

const FIELDS = [
  { key: 'meshPerCm', label: 'Mesh', min: 5, max: 250, unit: '/cm', step: 1 },
  { key: 'meshAngleDeg', label: 'Threads’ angle', min: -180, max: 180, unit: '°', step: 0.5 },
  { key: 'lpi', label: 'Halftone', min: 5, max: 200, unit: 'lpi', step: 1 },
  { key: 'screenAngleDeg', label: 'Halftone’s angle', min: -180, max: 180, unit: '°', step: 0.5 },
] as const satisfies readonly { key: keyof MoireInput; [more: string]: unknown }[];

/** Mesh and halftone multiplied, as the worker drew them. */
function Beat({ picture }: { readonly picture: ImageData }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => canvas.current?.getContext('2d')?.putImageData(picture, 0, 0), [picture]);
  return (
    <canvas
      ref={canvas}
      width={SIDE * POINTS}
      height={SIDE * POINTS}
      role="img"
      aria-label={`Mesh and halftone multiplied, ${SIDE} mm square, contrast raised: bands show where they beat`}
    />
  );
}

type Found = Awaited<ReturnType<typeof back.moire>>;

/** The beat of an input, worked out off the window's thread: it takes a quarter of a second. Null until it is there. */
function useMoire(input: MoireInput, threadUm: number): Found | null {
  const [found, setFound] = useState<Found | null>(null);
  const key = JSON.stringify({ ...input, threadUm });
  const find = useMemo(
    () =>
      latestWins<string, Found>(
        (asked) => back.moire(JSON.parse(asked), SIDE, POINTS),
        setFound,
        (error) => console.error(error),
      ),
    [],
  );
  useEffect(() => find(key), [find, key]);
  return found;
}

/** Mesh against halftone. */
export function MoireCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const first = job.faces[face].inks[0];
  const mesh = first ? meshOf(job, face, first) : { countPerCm: 77, threadUm: 55 };
  const [own, setOwn] = useState<Partial<MoireInput>>({});
  const input: MoireInput = {
    meshPerCm: mesh.countPerCm,
    meshAngleDeg: 0,
    lpi: 35,
    screenAngleDeg: 22.5,
    ...own,
  };
  const found = useMoire(input, mesh.threadUm);
  return (
    <Card title="Moiré" wide>
      <div className="fields">
        {FIELDS.map(({ key, label, min, max, unit, step }) => (
          <NumberBox
            key={key}
            label={label}
            value={input[key]}
            min={min}
            max={max}
            unit={unit}
            step={step}
            onChange={(n) => setOwn({ ...own, [key]: n })}
          />
        ))}
      </div>
      <div className="moire">
        {found?.picture && <Beat picture={found.picture} />}
        {found && (
          <Worked found={found.beats}>
            {({ worst, seen, angles, rulings }) => (
              <>
                <div className="measures">
                  <Measure
                    value={worst.period === null ? 'none' : worst.period.toFixed(2)}
                    unit={worst.period === null ? '' : 'mm'}
                    label={
                      worst.period === null ? 'beat: dots and threads fall together' : 'from band to band'
                    }
                  />
                </div>
                <p className={seen ? 'not-held' : ''}>
                  {seen ? 'Likely to be seen.' : 'Too fine to be seen.'} Calmest angles to the threads:{' '}
                  {angles
                    .slice(0, 3)
                    .map((a) => `${a.angleDeg}° (${a.period.toFixed(2)} mm)`)
                    .join(', ')}
                  . Calmest rulings at this angle:{' '}
                  {rulings
                    .slice(0, 3)
                    .map((r) => `${r.lpi} lpi (${r.period.toFixed(2)} mm)`)
                    .join(', ')}
                  .
                </p>
                <p className="hint">
                  The picture is {SIDE} mm square, mesh times dots, its contrast raised so that a faint beat
                  can be seen.
                </p>
              </>
            )}
          </Worked>
        )}
      </div>
    </Card>
  );
}
