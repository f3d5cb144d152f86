import { Card, InTurn, LengthField } from '../bench/index.ts';
import { StrayCard } from '../press/index.ts';
import { changeTraps, edit, useStudio } from '../state/index.ts';
import { GapCard } from './GapCard.tsx';
import { MovePull } from './MovePull.tsx';
import { PairTable } from './PairTable.tsx';
import { SpreadsShown } from './SpreadsShown.tsx';
import './traps.css';

/** Who spreads under whom, by how much, and how far the base stays inside. */
export function TrapsStation() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { traps } = job.faces[face];
  return (
    <InTurn>
      <Card title="Widths">
        <p className="hint">
          A screen moves by a fraction of a millimetre between pulls. Traps keep wood from showing where two
          inks meet.
        </p>
        <div className="fields">
          <LengthField
            label="Trap, light under dark"
            value={traps.width}
            min={0}
            max={10}
            step={0.05}
            large
            onChange={(width) =>
              edit('Change trap width', (j) => changeTraps(j, face, { width }), 'trap width')
            }
          />
          <LengthField
            label="Base stays inside by"
            value={traps.choke}
            min={0}
            max={10}
            step={0.05}
            large
            onChange={(choke) => edit('Change choke', (j) => changeTraps(j, face, { choke }), 'choke')}
          />
          <LengthField
            label="Finest line the screens hold"
            value={traps.narrowestLine}
            min={0}
            max={5}
            step={0.05}
            onChange={(narrowestLine) =>
              edit('Change finest line', (j) => changeTraps(j, face, { narrowestLine }), 'narrowest')
            }
          />
        </div>
      </Card>
      <Card title="Who spreads under whom" wide>
        <PairTable />
      </Card>
      <SpreadsShown />
      <MovePull />
      <StrayCard />
      <GapCard />
    </InTurn>
  );
}
