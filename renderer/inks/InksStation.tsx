import { InTurn } from '../bench/index.ts';
import { ByHand } from './ByHand.tsx';
import { Colourways } from './Colourways.tsx';
import { GainCard } from './GainCard.tsx';
import { InkCard } from './InkCard.tsx';
import { Layers } from './Layers.tsx';
import { Method } from './Method.tsx';
import { Proofs } from './Proofs.tsx';
import { Pulls } from './Pulls.tsx';
import { Shelf } from './Shelf.tsx';
import { Specks } from './Specks.tsx';
import { SplitInks } from './SplitInks.tsx';
import { Suggested } from './Suggested.tsx';
import { Veneers } from './Veneers.tsx';
import './inks.css';

/** Inks in pull order, how each behaves, and how the run looks on every veneer. */
export function InksStation() {
  return (
    <InTurn>
      <Pulls />
      <Method />
      <Layers />
      <SplitInks />
      <GainCard />
      <InkCard />
      <ByHand />
      <Specks />
      <Proofs />
      <Suggested />
      <Shelf />
      <Colourways />
      <Veneers />
    </InTurn>
  );
}
