import { useStudio } from '../state/index.ts';
import { Pieces } from './Pieces.tsx';
import { PlaceCard } from './PlaceCard.tsx';
import { WoodCard } from './WoodCard.tsx';

/** Art on the deck: what is placed, where, and which of its colours is bare wood. */
export function ArtStation() {
  const face = useStudio((s) => s.job!.faces[s.face]);
  const selection = useStudio((s) => s.selection);
  const piece = face.art.find((a) => a.id === selection[0]);
  return (
    <>
      <Pieces />
      {piece && <PlaceCard key={piece.id} piece={piece} />}
      {piece && <WoodCard key={`${piece.id} wood`} piece={piece} />}
    </>
  );
}
