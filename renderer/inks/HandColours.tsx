import { assignColour, type HandColour } from '../../core/job/index.ts';
import { Icon, Pick } from '../bench/index.ts';
import { changeFace, edit, useStudio } from '../state/index.ts';

const WOOD = 'wood:';

/** Colours of the art that were given to an ink by hand. */
export function HandColours() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const settings = job.faces[face];
  const { inks, handColours = [] } = settings;
  if (handColours.length === 0) return null;
  const options = [...inks.map((i) => ({ value: i.id, label: i.name })), { value: WOOD, label: 'Bare wood' }];
  const change = ({ hex }: HandColour, ink: string | null) =>
    edit(`Give ${hex} to ${inks.find((i) => i.id === ink)?.name ?? 'bare wood'}`, (j) =>
      changeFace(j, face, assignColour(j.faces[face], hex, ink)),
    );
  const forget = ({ hex }: HandColour) =>
    edit(`Let ${hex} find its own ink`, (j) =>
      changeFace(j, face, { handColours: handColours.filter((c) => c.hex !== hex) }),
    );
  return (
    <ul className="hand-list" aria-label="Colours given by hand">
      {handColours.map((colour) => {
        const ink = inks.find((i) => i.id === colour.ink);
        return (
          <li key={colour.hex}>
            <span className="ink-drop" style={{ background: colour.hex }} />
            <small>{colour.hex}</small>
            <Pick
              label={`${colour.hex} prints as`}
              hideLabel
              value={colour.ink ?? WOOD}
              options={options}
              onChange={(to) => change(colour, to === WOOD ? null : to)}
            />
            {ink?.kept && (
              <span role="img" aria-label="protected" title="Protected">
                <Icon name="lock" />
              </span>
            )}
            <button
              type="button"
              aria-label={`Let ${colour.hex} find its own ink`}
              onClick={() => forget(colour)}
            >
              <Icon name="bin" />
            </button>
          </li>
        );
      })}
    </ul>
  );
}
