import { jigDrawing } from '../../core/press/index.ts';
import { jigOf } from '../../core/runOf.ts';
import { Card, Choice, LengthField } from '../bench/index.ts';
import { Cautions, Drawn } from '../screens/index.ts';
import { changePress, edit, useStudio } from '../state/index.ts';

/** The jig's base board for the face in front. */
export function JigCard() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const input = jigOf(job);
  const drawn = jigDrawing(job.deck, face, input);
  return (
    <Card title={`Jig, ${face} face up`} wide>
      <div className="fields">
        <LengthField
          label="Frame’s own bar"
          value={input.frameBar}
          min={0}
          max={300}
          step={1}
          onChange={(frameBar) => edit('Change frame bar', (j) => changePress(j, { frameBar }), 'frame bar')}
        />
        <LengthField
          label="Frame inside, across"
          value={input.frameWidth}
          min={0}
          max={3000}
          step={10}
          onChange={(frameWidth) =>
            edit('Change frame', (j) => changePress(j, { frameWidth }), 'press frameWidth')
          }
        />
      </div>
      <Choice
        label="Hinge clamps"
        value={input.hinge}
        options={[
          { value: 'near', label: 'near side' },
          { value: 'far', label: 'far side' },
        ]}
        onChange={(hinge) => edit('Change hinge side', (j) => changePress(j, { hinge }))}
      />
      <Choice
        label="Bolts that hold the deck"
        value={input.bolts}
        options={[
          { value: 'outer', label: 'outer four' },
          { value: 'inner', label: 'inner four' },
          { value: 'all', label: 'all eight' },
        ]}
        onChange={(bolts) => edit('Change bolts', (j) => changePress(j, { bolts }))}
      />
      {drawn.ok ? (
        <Drawn drawing={drawn.value} label={`Jig for the ${face}: outline, truck holes, frame, hinge line`} />
      ) : (
        <p className="worked-trouble">
          {drawn.reason} {drawn.mend}
        </p>
      )}
      <p className="hint">
        “Make press sheets” writes it at 1:1 as jig.pdf on your film sheets, and as SVG and DXF for a cutter.
      </p>
      <Cautions of={['wood', 'clamps']} />
    </Card>
  );
}
