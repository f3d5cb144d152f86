import { ShopCard } from '../shop/index.ts';
import { JigCard } from './JigCard.tsx';
import { LogCard } from './LogCard.tsx';
import { NotesCard } from './NotesCard.tsx';
import { PlanCard } from './PlanCard.tsx';
import { RegisterCard } from './RegisterCard.tsx';
import { RunCard } from './RunCard.tsx';
import './press.css';

/** From screens to boxed decks: the run, its plan, register, jig and log. */
export function PressStation() {
  return (
    <>
      <RunCard />
      <RegisterCard />
      <PlanCard />
      <JigCard />
      <LogCard />
      <NotesCard />
      <ShopCard />
    </>
  );
}
