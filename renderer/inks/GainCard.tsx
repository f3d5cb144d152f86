import { DEFAULT_HALFTONE, type DotGain, screensDots } from '../../core/job/index.ts';
import { gainTable, printedTone } from '../../core/separate/index.ts';
import { Card, NumberBox } from '../bench/index.ts';
import { changeFace, edit, useStudio } from '../state/index.ts';

/** Side of the plot, user units. */
const SIDE = 100;

const line = (tone: (v: number) => number) =>
  Array.from({ length: 51 }, (_, i) => {
    const v = i / 50;
    return `${i === 0 ? 'M' : 'L'}${(v * SIDE).toFixed(1)} ${(SIDE - tone(v) * SIDE).toFixed(1)}`;
  }).join('');

/** How much darker the press prints than the film: a midtone, or patches measured on a print, with both curves drawn. */
export function GainCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const settings = job.faces[face];
  if (!screensDots(settings)) return null;
  const halftone = settings.halftone ?? DEFAULT_HALFTONE;
  const gain: DotGain = halftone.gain ?? {};
  const put = (label: string, next: DotGain) =>
    edit(label, (j) => changeFace(j, face, { halftone: { ...halftone, gain: next } }), `${label} ${face}`);
  const patches = gain.patches ?? [];
  const putPatch = (at: number, change: Partial<(typeof patches)[number]>) =>
    put('Change tone patch', {
      ...gain,
      patches: patches.map((patch, i) => (i === at ? { ...patch, ...change } : patch)),
    });
  const printed = printedTone(gain);
  const table = gainTable(gain);
  return (
    <Card
      title="Tones darker on the wood"
      action={
        <button
          type="button"
          className="tape-button"
          onClick={() =>
            put('Add a tone patch', { ...gain, patches: [...patches, { film: 0.5, printed: printed(0.5) }] })
          }
        >
          Add a measured patch
        </button>
      }
    >
      <div className="gain">
        <svg className="gain-plot" viewBox={`-4 -4 ${SIDE + 8} ${SIDE + 8}`} role="img">
          <title>
            {`A tone of one half on the film prints as ${Math.round(printed(0.5) * 100)} %; for a printed half the film holds ${Math.round((table[128]! / 255) * 100)} %.`}
          </title>
          <path
            className="gain-grid"
            d={`M0 0H${SIDE}V${SIDE}H0Z M0 ${SIDE / 2}H${SIDE} M${SIDE / 2} 0V${SIDE}`}
          />
          <path className="gain-even" d={`M0 ${SIDE}L${SIDE} 0`} />
          <path className="gain-printed" d={line(printed)} />
          <path className="gain-film" d={line((v) => table[Math.round(v * 255)]! / 255)} />
          {patches.map(({ film, printed: dark }, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: patches have no other name
            <circle key={i} cx={film * SIDE} cy={SIDE - dark * SIDE} r="2.4" />
          ))}
        </svg>
        <ul className="gain-key">
          <li className="gain-key-printed">prints as</li>
          <li className="gain-key-film">film holds, to print what is asked</li>
        </ul>
      </div>
      {patches.length === 0 && (
        <div className="pair">
          <NumberBox
            label="One half gains"
            value={(gain.midtone ?? 0) * 100}
            unit="%"
            min={-20}
            max={45}
            onChange={(v) => put('Change gain', { ...gain, midtone: v / 100 })}
          />
        </div>
      )}
      <ul className="patches">
        {patches.map(({ film, printed: dark }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: patches have no other name
          <li key={i} className="pair">
            <NumberBox
              label="On the film"
              value={film * 100}
              unit="%"
              min={0}
              max={100}
              onChange={(v) => putPatch(i, { film: v / 100 })}
            />
            <NumberBox
              label="Printed"
              value={dark * 100}
              unit="%"
              min={0}
              max={100}
              onChange={(v) => putPatch(i, { printed: v / 100 })}
            />
            <button
              type="button"
              aria-label={`Remove the patch of ${Math.round(film * 100)} %`}
              onClick={() =>
                put('Remove a tone patch', { ...gain, patches: patches.filter((_, k) => k !== i) })
              }
            >
              Remove
            </button>
          </li>
        ))}
      </ul>
      <p className="hint">
        Print the film tone-patches.pdf (“Make press sheets” at the Press station writes it), measure how dark
        its patches came out, and add each here. The films then hold that much less.
      </p>
    </Card>
  );
}
