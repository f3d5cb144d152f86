import {
  DEFAULT_HALFTONE,
  DEFAULT_INDEX,
  DITHERS,
  DOT_SHAPES,
  type FaceJob,
  isToned,
  screenAngle,
  screenedInks,
  screensDots,
} from '../../core/job/index.ts';
import { tonesOfDot } from '../../core/raster/index.ts';
import { Card, Choice, LengthField, NumberBox } from '../bench/index.ts';
import { changeFace, edit, inkColour, useStudio } from '../state/index.ts';

const METHODS = [
  { value: 'spot', label: 'Flat colours', hint: 'Each point takes one ink or none; edges are trapped' },
  { value: 'index', label: 'Index dots', hint: 'Shaded art as even dots of single inks, side by side' },
  { value: 'halftone', label: 'Halftone', hint: 'Shaded art as one screen of growing dots an ink' },
  { value: 'layered', label: 'Layers', hint: 'Art that was prepared with a layer for each ink' },
] as const;
const DITHER_WORDS: Readonly<Record<(typeof DITHERS)[number], { label: string; hint: string }>> = {
  diffusion: {
    label: 'By what was missed',
    hint: 'Each dot makes good what its neighbours missed: the sharpest',
  },
  'blue-noise': { label: 'By an even grain', hint: 'Without rows or worms in even tones; a little softer' },
};
const SHAPE_WORDS: Readonly<Record<(typeof DOT_SHAPES)[number], string>> = {
  round: 'Round',
  elliptical: 'Elliptical',
  line: 'Lines',
};

/** Below so many tones steps begin to show in soft shading. Common practice, no source. */
const FEW_TONES = 64;

/** How the face's art is split into inks, and the dots of shaded art. */
export function Method() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const colourway = useStudio((s) => s.colourwayId);
  const settings = job.faces[face];
  const put = (label: string, change: Partial<FaceJob>) =>
    edit(label, (j) => changeFace(j, face, change), `${label} ${face}`);
  const index = settings.index ?? DEFAULT_INDEX;
  const halftone = settings.halftone ?? DEFAULT_HALFTONE;
  const known = METHODS.some(({ value }) => value === settings.method);
  return (
    <Card title="Split the art by">
      <Choice
        label="Method"
        hideLabel
        value={known ? settings.method : null}
        options={METHODS}
        onChange={(method) => put('Change method', { method })}
      />
      {settings.method === 'index' && (
        <>
          <LengthField
            label="Side of a dot"
            value={index.dotMm}
            min={0.05}
            max={5}
            step={0.05}
            onChange={(dotMm) => put('Change dot', { index: { ...index, dotMm } })}
          />
          <Choice
            label="Dots are placed"
            value={index.dither ?? 'diffusion'}
            options={DITHERS.map((value) => ({ value, ...DITHER_WORDS[value] }))}
            onChange={(dither) => put('Change how dots are placed', { index: { ...index, dither } })}
          />
        </>
      )}
      {screensDots(settings) && (
        <>
          <div className="pair">
            <NumberBox
              label="Ruling"
              value={halftone.lpi}
              unit="lpi"
              min={10}
              max={200}
              onChange={(lpi) => put('Change ruling', { halftone: { ...halftone, lpi } })}
            />
          </div>
          <Choice
            label="Dot"
            value={halftone.dot}
            options={DOT_SHAPES.map((value) => ({ value, label: SHAPE_WORDS[value] }))}
            onChange={(dot) => put('Change dot', { halftone: { ...halftone, dot } })}
          />
          <div className="pair">
            {settings.inks.map((ink, i) =>
              !screenedInks(settings).includes(i) ? null : (
                <NumberBox
                  key={ink.id}
                  label={inkColour(job, ink, colourway).name}
                  value={screenAngle(settings, i)}
                  unit="°"
                  min={-360}
                  max={360}
                  onChange={(angle) =>
                    put('Change angle', {
                      halftone: { ...halftone, angles: { ...halftone.angles, [ink.id]: angle } },
                    })
                  }
                />
              ),
            )}
          </div>
          <p className="hint">
            At {job.printer.dpi} dpi a dot of this ruling takes{' '}
            {Math.floor(tonesOfDot(job.printer.dpi, halftone.lpi))} tones.
            {tonesOfDot(job.printer.dpi, halftone.lpi) < FEW_TONES &&
              ' Soft shading may show steps: a coarser ruling has more.'}
          </p>
        </>
      )}
      {isToned(settings) && (
        <p className="hint">
          Dots are not trapped.
          {settings.inks.some((i) => i.role === 'base')
            ? ' Where an ink needs the base, it lies solid under all of the art.'
            : ' Inks mix with the bare wood between them.'}
        </p>
      )}
    </Card>
  );
}
