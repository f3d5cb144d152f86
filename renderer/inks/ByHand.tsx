import { palettePartsOf } from '../../core/handInks.ts';
import { assignColour, type FaceJob } from '../../core/job/index.ts';
import { nearestInk } from '../../core/separate/index.ts';
import { takeTool } from '../acts/index.ts';
import { Card, Icon, LengthField, Pick } from '../bench/index.ts';
import { changeFace, edit, type HandTool, useStudio } from '../state/index.ts';
import { HandColours } from './HandColours.tsx';
import { HandRegions } from './HandRegions.tsx';

const TOOLS = [
  { kind: 'pick', label: 'Pick a colour', hint: 'P on the deck' },
  { kind: 'lasso', label: 'Draw round', hint: 'R on the deck' },
  { kind: 'brush', label: 'Brush', hint: 'B on the deck' },
] as const;
const WOOD = 'wood:';

/** Whose what is changed may be, as one choice. */
const WHAT = { all: 'all:', inked: 'inked:' } as const;
const whatOf = ({ only, bareStays }: HandTool) => only ?? (bareStays ? WHAT.inked : WHAT.all);

/** What is given to inks by hand: colours, regions. */
export function ByHand() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const hand = useStudio((s) => s.hand);
  const picked = useStudio((s) => s.picked);
  const settings = job.faces[face];
  const { inks, art, method } = settings;
  // A layer is one ink's already: it is changed where it was drawn.
  if (art.length === 0 || inks.length === 0 || method === 'layered') return null;
  const change = (over: Partial<HandTool>) => hand && useStudio.setState({ hand: { ...hand, ...over } });
  const put = (label: string, to: FaceJob) => edit(label, (j) => changeFace(j, face, to));
  const regions = art.reduce((n, piece) => n + (piece.regions?.length ?? 0), 0);
  const colours = settings.handColours?.length ?? 0;
  const inkOptions = [
    ...inks.map((i) => ({ value: i.id, label: i.name })),
    { value: WOOD, label: 'Bare wood' },
  ];
  const clear = () =>
    put('Undo all by hand', {
      ...settings,
      handColours: [],
      art: art.map((piece) => (piece.regions?.length ? { ...piece, regions: [] } : piece)),
    });
  return (
    <Card
      title="By hand"
      action={
        regions + colours > 0 && (
          <button type="button" className="tape-button" onClick={clear}>
            Undo all by hand
          </button>
        )
      }
    >
      <fieldset className="hand-tools">
        <legend className="unseen">Tools on the deck</legend>
        {TOOLS.map(({ kind, label, hint }) => (
          <button
            key={kind}
            type="button"
            title={hint}
            aria-pressed={hand?.kind === kind}
            onClick={() => takeTool(kind)}
          >
            <Icon name={kind} /> {label}
          </button>
        ))}
      </fieldset>
      {hand === null && (
        <p className="hint">
          Where the split is not what you want: give a colour of the art to another ink, or draw on the deck.
        </p>
      )}
      {hand?.kind === 'pick' && picked === null && (
        <p className="hint">Click a colour of the art on the deck.</p>
      )}
      {hand?.kind === 'pick' && picked && (
        <PickedColour
          key={picked.hex}
          hex={picked.hex}
          ink={inkOf(settings, picked.hex)}
          options={inkOptions}
          assign={(ink) =>
            put(
              `Give ${picked.hex} to ${inks.find((i) => i.id === ink)?.name ?? 'bare wood'}`,
              assignColour(settings, picked.hex, ink),
            )
          }
          protect={(ink) =>
            put(`Protect ${picked.hex}`, {
              ...assignColour(settings, picked.hex, ink),
              inks: inks.map((i) => (i.id === ink ? { ...i, kept: true } : i)),
            })
          }
          isProtected={
            settings.handColours?.some(
              (c) => c.hex === picked.hex && inks.some((i) => i.id === c.ink && i.kept),
            ) ?? false
          }
        />
      )}
      {hand && hand.kind !== 'pick' && (
        <>
          <div className="pair">
            <Pick
              label="Give it to"
              value={hand.to ?? WOOD}
              options={inkOptions}
              onChange={(to) => change({ to: to === WOOD ? null : to })}
            />
            <Pick
              label="What changes"
              value={whatOf(hand)}
              options={[
                { value: WHAT.inked, label: 'All inks; bare wood stays' },
                { value: WHAT.all, label: 'Everything' },
                ...inks.map((i) => ({ value: i.id, label: `Only ${i.name}` })),
              ]}
              onChange={(what) =>
                change({
                  only: what === WHAT.all || what === WHAT.inked ? null : what,
                  bareStays: what === WHAT.inked,
                })
              }
            />
          </div>
          {hand.kind === 'brush' && (
            <LengthField
              label="Brush"
              value={hand.width}
              min={0.2}
              max={120}
              step={0.5}
              onChange={(width) => change({ width })}
            />
          )}
          <p className="hint">
            {hand.kind === 'brush'
              ? 'Brush over the art on the deck.'
              : 'Draw round a part of the art on the deck.'}{' '}
            By keys: arrows move the cross, Space{' '}
            {hand.kind === 'brush' ? 'lowers and lifts it' : 'sets a corner, Enter closes'}.
          </p>
        </>
      )}
      <HandColours />
      <HandRegions />
    </Card>
  );
}

/** The ink that prints an even area of a colour now; null: bare wood. */
function inkOf(face: FaceJob, hex: string): string | null {
  const at = nearestInk({ ...palettePartsOf(face), ground: null }, hex);
  return at === null ? null : (face.inks[at]?.id ?? null);
}

function PickedColour({
  hex,
  ink,
  options,
  assign,
  protect,
  isProtected,
}: {
  hex: string;
  ink: string | null;
  options: readonly { value: string; label: string }[];
  assign: (ink: string | null) => void;
  protect: (ink: string) => void;
  isProtected: boolean;
}) {
  return (
    <div className="picked" aria-live="polite">
      <span className="ink-drop" style={{ background: hex }} />
      <Pick
        label={`${hex} prints as`}
        value={ink ?? WOOD}
        options={options}
        onChange={(to) => assign(to === WOOD ? null : to)}
      />
      {ink !== null && (
        <button
          type="button"
          aria-pressed={isProtected}
          disabled={isProtected}
          title="It keeps this ink whatever is suggested, and none of its specks is dropped"
          onClick={() => protect(ink)}
        >
          <Icon name="lock" /> {isProtected ? 'Protected' : 'Protect'}
        </button>
      )}
    </div>
  );
}
