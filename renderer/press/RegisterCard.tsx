import { useState } from 'react';
import { clampPlaces, type RegisterReading, registerCorrection } from '../../core/press/index.ts';
import { jigOf } from '../../core/runOf.ts';
import { Card, LengthField, NumberBox, Pick, Toggle } from '../bench/index.ts';
import { Worked } from '../screens/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';
import { ClampPicture } from './ClampPicture.tsx';
import { useScales } from './registerScales.ts';

type Given = Readonly<Record<string, number>>;

/** From a test print's verniers to what each clamp does. */
export function RegisterCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { inks } = job.faces[face];
  const [chosen, setChosen] = useState<string | null>(null);
  const inkId = inks.some((i) => i.id === chosen) ? chosen! : (inks[1]?.id ?? inks[0]?.id ?? '');
  const { places, guessed } = useScales(inkId);
  const [given, setGiven] = useState<Given>({});
  const [before, setBefore] = useState<readonly RegisterReading[]>([]);
  const clamps = clampPlaces(jigOf(job));
  const readings: RegisterReading[] = [...places].flatMap(([place, there]) =>
    there.flatMap(({ x, y, reads }) => {
      const value = given[`${place} ${reads}`];
      return value === undefined ? [] : [{ x, y, [reads]: value }];
    }),
  );
  const all = [...before, ...readings];
  const found = all.length > 0 ? registerCorrection({ readings: all, clamps }) : null;
  const tests = job.press.registerTests ?? [];
  const mine = tests.filter((t) => t.face === face && t.inkId === inkId);
  const box = (place: string, reads: 'along' | 'across', can: boolean) => {
    if (!can) return <td />;
    const name = `${place} ${reads}`;
    const value = given[name];
    return (
      <td>
        <Toggle
          label={value === undefined ? 'not read' : ''}
          on={value !== undefined}
          onChange={(on) => {
            const { [name]: _, ...rest } = given;
            setGiven(on ? { ...rest, [name]: 0 } : rest);
          }}
        />
        {value !== undefined && (
          <NumberBox
            label={`${reads}, ${place}`}
            hideLabel
            value={value}
            min={-50}
            max={50}
            step={0.1}
            unit="mm"
            onChange={(n) => setGiven({ ...given, [name]: n })}
          />
        )}
      </td>
    );
  };
  return (
    <Card title={`Register, ${face}`} wide>
      <p className="hint">
        Read each vernier on the test print: how far this pull lies from the first. Toward the nose, and away
        from you, is plus; you stand with the nose on your right. Two marks at least, four to check.
      </p>
      <Pick
        label="Pull"
        value={inkId}
        options={inks.map((ink, i) => ({ value: ink.id, label: `${i + 1}  ${ink.name}` }))}
        onChange={setChosen}
      />
      <table className="plain-table readings">
        <thead>
          <tr>
            <th>mark</th>
            <th>to the nose +</th>
            <th>away from you +</th>
          </tr>
        </thead>
        <tbody>
          {[...places].map(([place, there]) => {
            const can = (reads: 'along' | 'across') => there.some((scale) => scale.reads === reads);
            return (
              <tr key={place}>
                <td>{place}</td>
                {box(place, 'along', can('along'))}
                {box(place, 'across', can('across'))}
              </tr>
            );
          })}
        </tbody>
      </table>
      {guessed && (
        <p className="hint">
          The films are not laid out here: marks are taken to stand at the tips and rails, and turns of the
          screen are rough.
        </p>
      )}
      {before.length > 0 && <p className="hint">{before.length} earlier readings are averaged with these.</p>}
      {found && (
        <Worked found={found}>
          {(correction) => (
            <>
              <div className="clamp-words">
                {correction.clamps.map((c) => (
                  <span key={c.words}>{c.words}.</span>
                ))}
              </div>
              <ClampPicture correction={correction} />
              <p
                className={
                  correction.meaning === 'good' || correction.meaning === 'unchecked' ? '' : 'not-held'
                }
              >
                {correction.advice}
              </p>
              <div className="row-buttons">
                <button
                  type="button"
                  onClick={() => {
                    setBefore(all);
                    setGiven({});
                  }}
                >
                  Read the same print again
                </button>
                <button
                  type="button"
                  onClick={() => {
                    edit('Write down a register test', (j) =>
                      changePress(j, {
                        registerTests: [
                          ...(j.press.registerTests ?? []),
                          {
                            face,
                            inkId,
                            readings: all.map((r) => ({ ...r })),
                            left: correction.rms,
                            words: correction.clamps.map((c) => c.words).join('; '),
                          },
                        ],
                      }),
                    );
                    setBefore([]);
                    setGiven({});
                  }}
                >
                  Moved: write it down
                </button>
              </div>
            </>
          )}
        </Worked>
      )}
      {mine.length > 0 && (
        <ol className="steps-list">
          {mine.slice(-5).map((test) => (
            <li key={JSON.stringify(test.readings)}>
              {test.words}; {test.left.toFixed(2)} mm left
            </li>
          ))}
        </ol>
      )}
      <div className="fields">
        <LengthField
          label="A pull wanders by"
          value={job.press.registerTolerance}
          min={0}
          max={10}
          step={0.05}
          hint="Traps are judged against it; the card beside learns it from printed decks."
          onChange={(registerTolerance) =>
            edit(
              'Change register tolerance',
              (j) => changePress(j, { registerTolerance }),
              'press registerTolerance',
            )
          }
        />
      </div>
    </Card>
  );
}
