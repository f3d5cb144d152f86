import { isToned } from '../../core/job/index.ts';
import { Card, Toggle } from '../bench/index.ts';
import { changeInk, edit, useStudio } from '../state/index.ts';

/** Inks that are split another way than their face: sharp line work among dots, or tones among solid layers. */
export function SplitInks() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const settings = job.faces[face];
  const toned = isToned(settings);
  const inks = settings.inks.filter(({ role, kind }) => role === 'colour' && kind !== 'clear');
  if ((!toned && settings.method !== 'layered') || inks.length === 0) return null;
  const split = toned ? 'spot' : 'halftone';
  return (
    <Card title={toned ? 'Sharp line work' : 'Layers in tones'}>
      <p className="hint">
        {toned
          ? 'An ink chosen here is cut sharp where the art has just its colour: outlines, lettering. The dots of the other inks run on under it by the trap.'
          : 'A layer chosen here is screened into dots; the others are cut sharp.'}
      </p>
      {inks.map((ink) => (
        <Toggle
          key={ink.id}
          label={ink.name}
          on={ink.split === split}
          onChange={(on) =>
            edit(
              `Split ${ink.name} ${on ? split : 'as its face'}`,
              (j) => changeInk(j, face, ink.id, { split: on ? split : undefined }),
              `split ${ink.id}`,
            )
          }
        />
      ))}
    </Card>
  );
}
