import { InTurn } from '../bench/index.ts';
import { ShopCard } from '../shop/index.ts';
import { JigCard } from './JigCard.tsx';
import { LogCard } from './LogCard.tsx';
import { NotesCard } from './NotesCard.tsx';
import { PlanCard } from './PlanCard.tsx';
import { PressSheetsCard } from './PressSheetsCard.tsx';
import { RegisterCard } from './RegisterCard.tsx';
import { ReprintCard } from './ReprintCard.tsx';
import { RunCard } from './RunCard.tsx';
import { ShoppingCard } from './ShoppingCard.tsx';
import { StrayCard } from './StrayCard.tsx';
import './press.css';

/** From screens to boxed decks: the run, its plan, register, jig and log. */
export function PressStation() {
  return (
    <InTurn>
      <RunCard />
      <PressSheetsCard />
      <RegisterCard />
      <StrayCard />
      <PlanCard />
      <JigCard />
      <LogCard />
      <ShoppingCard />
      <ReprintCard />
      <NotesCard />
      <ShopCard />
    </InTurn>
  );
}
