import { type Art, type Crop, cropOf, isToned, wholeSize, withCrop } from '../../core/job/index.ts';
import { Card, LengthField, Share, Toggle } from '../bench/index.ts';
import { changeArt, edit, useStudio } from '../state/index.ts';
import { cropToPrint } from './cropToPrint.ts';

/** What is cut away from a piece, and how strongly it covers. */
export function CropCard({ piece }: { piece: Art }) {
  const face = useStudio((s) => s.face);
  const toned = useStudio((s) => isToned(s.job!.faces[s.face]));
  const cropping = useStudio((s) => s.cropping);
  const crop = cropOf(piece);
  const whole = wholeSize(piece);
  const put = (label: string, next: Crop | null) =>
    edit(
      label,
      (j) => {
        const now = j.faces[face].art.find((a) => a.id === piece.id);
        return now ? changeArt(j, face, piece.id, withCrop(now, next)) : j;
      },
      `${label} ${piece.id}`,
    );
  // Sides are named as the art lies: of a mirrored piece the left is the drawing's right.
  const [left, right] = piece.mirror ? (['right', 'left'] as const) : (['left', 'right'] as const);
  const side = (label: string, key: keyof Crop & string, length: number) => (
    <LengthField
      label={label}
      value={(crop[key] as number) * length}
      min={0}
      max={length}
      step={0.5}
      onChange={(mm) => put('Crop art', { ...crop, [key]: mm / length })}
    />
  );
  return (
    <Card title="Crop and cover">
      <div className="fields">
        {side('Off the left', left, whole.width)}
        {side('Off the right', right, whole.width)}
        {side('Off the upper side', 'top', whole.height)}
        {side('Off the lower side', 'bottom', whole.height)}
      </div>
      <Toggle
        label="Crop with the handles on the deck"
        on={cropping}
        onChange={(on) => useStudio.setState({ cropping: on })}
      />
      <div className="button-row">
        <button
          type="button"
          onClick={() => {
            const { job } = useStudio.getState();
            if (job) put('Crop to the printable area', cropToPrint(job, face, piece));
          }}
        >
          To the printable area
        </button>
        <button type="button" disabled={!piece.crop} onClick={() => put('Uncrop art', null)}>
          Whole picture again
        </button>
      </div>
      <Share
        label="Opacity"
        value={piece.opacity ?? 1}
        onChange={(opacity) =>
          edit('Fade art', (j) => changeArt(j, face, piece.id, { opacity }), `fade ${piece.id}`)
        }
      />
      {!toned && (piece.opacity ?? 1) < 1 && (
        <p className="hint">
          Flat inks cover or do not, so this piece prints solid. It prints fainter with a method in dots: see
          Inks.
        </p>
      )}
    </Card>
  );
}
