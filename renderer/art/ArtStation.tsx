import { bringOver } from '../acts/index.ts';
import { Card, InTurn } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';
import { CropCard } from './CropCard.tsx';
import { GuidesCard } from './GuidesCard.tsx';
import { Pieces } from './Pieces.tsx';
import { PlaceCard } from './PlaceCard.tsx';
import { Together } from './Together.tsx';
import { WoodCard } from './WoodCard.tsx';
import { WordsCard } from './WordsCard.tsx';
import './art.css';

/** Art on the deck: what is placed, where, and which of its colours is bare wood. */
export function ArtStation() {
  const face = useStudio((s) => s.job!.faces[s.face]);
  const other = useStudio((s) => (s.face === 'bottom' ? 'top' : 'bottom'));
  const taken = useStudio((s) => s.job!.faces[other].art.length > 0);
  const selection = useStudio((s) => s.selection);
  const chosen = face.art.filter((a) => selection.includes(a.id));
  const piece = chosen.length === 1 ? chosen[0] : undefined;
  return (
    <InTurn>
      <Pieces />
      {chosen.length > 1 && <Together />}
      {piece?.text && <WordsCard key={`${piece.id} words`} piece={piece} />}
      {piece && <PlaceCard key={piece.id} piece={piece} />}
      {piece && <CropCard key={`${piece.id} crop`} piece={piece} />}
      {piece && !piece.text && <WoodCard key={`${piece.id} wood`} piece={piece} />}
      <GuidesCard />
      {face.art.length > 0 && (
        <Card title={`A matching ${other}`}>
          <p className="hint">
            Carries this face’s art and inks over. Mirrored, the two graphics lie back to back: nose stays
            nose.
            {taken && ` What the ${other} has now is replaced; undo brings it back.`}
          </p>
          <div className="button-row">
            <button type="button" onClick={() => bringOver(true)}>
              Bring over, mirrored
            </button>
            <button type="button" onClick={() => bringOver(false)}>
              Bring over as it is
            </button>
          </div>
        </Card>
      )}
    </InTurn>
  );
}
