import { Card, Icon, LengthField } from '../bench/index.ts';
import { changeGuide, edit, useStudio } from '../state/index.ts';

/** The face's own guides in numbers; on the deck they are pulled out of the rulers. */
export function GuidesCard() {
  const face = useStudio((s) => s.face);
  const guides = useStudio((s) => s.job!.faces[s.face].guides) ?? [];
  const add = (along: 's' | 't') =>
    edit('Place a guide', (j) => changeGuide(j, face, null, { along, at: 0 }));
  return (
    <Card title="Guides">
      <p className="hint">
        Pull one out of a ruler, or add it here. Art snaps to guides, to the centreline, the truck holes and
        the printable edge; hold Alt to move freely.
      </p>
      <ul className="guides">
        {guides.map((guide, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a guide has nothing of its own but its place
          <li key={i}>
            <LengthField
              label={guide.along === 's' ? 'Across, from mid-wheelbase' : 'Along, from centreline'}
              value={guide.at}
              step={1}
              onChange={(at) =>
                edit('Move a guide', (j) => changeGuide(j, face, i, { ...guide, at }), `guide ${i}`)
              }
            />
            <button
              type="button"
              aria-label="Take this guide away"
              onClick={() => edit('Take a guide away', (j) => changeGuide(j, face, i, null))}
            >
              <Icon name="bin" />
            </button>
          </li>
        ))}
      </ul>
      <div className="button-row">
        <button type="button" onClick={() => add('s')}>
          <Icon name="plus" /> Across
        </button>
        <button type="button" onClick={() => add('t')}>
          <Icon name="plus" /> Along
        </button>
      </div>
    </Card>
  );
}
