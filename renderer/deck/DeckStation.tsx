import { checkDeck, type Deck } from '../../core/deck/index.ts';
import { Card, Choice, InTurn, LengthField, NumberBox } from '../bench/index.ts';
import { changeFace, edit, tell, useStudio } from '../state/index.ts';
import { FitCard } from './FitCard.tsx';
import { MeasuresCard } from './MeasuresCard.tsx';
import { ConcaveSection, KickDrawing, LongSection } from './Sections.tsx';
import { Templates } from './Templates.tsx';
import { TraceCard } from './trace/TraceCard.tsx';
import './deck.css';

/** Changes the deck unless the change makes one that can not be. */
const changeDeck = (label: string, change: (deck: Deck) => Deck, squash?: string) => {
  const { job } = useStudio.getState();
  if (!job) return;
  const checked = checkDeck(change(job.deck));
  if (!checked.ok) return tell('trouble', checked.reason, checked.mend);
  edit(label, (j) => ({ ...j, deck: checked.value }), squash ?? null);
};

/** The deck to print on: shape, measures, concave, kicks, printable area. */
export function DeckStation() {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const { deck } = job;
  const settings = job.faces[face];
  const concave = (change: Partial<Deck['concave']>, key: string) =>
    changeDeck('Change concave', (d) => ({ ...d, concave: { ...d.concave, ...change } }), `concave ${key}`);
  const kick = (end: 'nose' | 'tail', change: Partial<Deck['nose']>) =>
    changeDeck(
      `Change ${end} kick`,
      (d) => ({ ...d, [end]: { ...d[end], ...change } }),
      `${end} ${Object.keys(change)}`,
    );
  return (
    <InTurn>
      <Templates deck={deck} onPick={(d, title) => changeDeck(`Take ${title}`, () => d)} />
      <MeasuresCard deck={deck} change={changeDeck} />
      <Card title="Concave">
        <ConcaveSection deck={deck} face={face} />
        <Choice
          label="Profile"
          value={deck.concave.profile}
          options={[
            { value: 'radial', label: 'Radial' },
            { value: 'flat-centre', label: 'Flat centre' },
          ]}
          onChange={(profile) => concave({ profile }, 'profile')}
        />
        <div className="fields">
          <LengthField
            label="Depth at the centre"
            hint="Straightedge across the rails on the top face: the gap at the centre."
            value={deck.concave.depth}
            onChange={(depth) => concave({ depth }, 'depth')}
            min={0}
            max={60}
            step={0.5}
            large
          />
          {deck.concave.profile === 'flat-centre' && (
            <LengthField
              label="Flat strip"
              value={deck.concave.flatWidth}
              onChange={(flatWidth) => concave({ flatWidth }, 'flat')}
              min={0}
              max={400}
              step={1}
            />
          )}
          <LengthField
            label="Fades along kicks over"
            value={deck.concave.fade}
            onChange={(fade) => concave({ fade }, 'fade')}
            min={0}
            max={400}
            step={5}
          />
        </div>
      </Card>
      <Card title="Kicks">
        <LongSection deck={deck} face={face} />
        <div className="pair">
          {(['tail', 'nose'] as const).map((end) => (
            <div key={end} className="fields">
              <h3>{end === 'tail' ? 'Tail' : 'Nose'}</h3>
              <KickDrawing deck={deck} face={face} end={end} />
              <NumberBox
                label="Rises by"
                value={deck[end].angleDeg}
                onChange={(angleDeg) => kick(end, { angleDeg })}
                min={0}
                max={60}
                step={0.5}
                unit="°"
              />
              <LengthField
                label="Bend radius"
                value={deck[end].radius}
                onChange={(radius) => kick(end, { radius })}
                min={0}
                max={2000}
                step={5}
              />
              <LengthField
                label="Bends from holes at"
                value={deck[end].start}
                onChange={(start) => kick(end, { start })}
                min={0}
                max={300}
                step={1}
              />
            </div>
          ))}
        </div>
      </Card>
      <TraceCard deck={deck} />
      <FitCard />
      <Card title={`Printable area, ${face}`}>
        <p className="hint">
          Dashed on the deck. Ink near a rail needs a blade that bends with it; keep fine art inside.
        </p>
        <div className="fields">
          <LengthField
            label="Kept from the rail"
            value={settings.railMargin}
            onChange={(railMargin) =>
              edit('Change rail margin', (j) => changeFace(j, face, { railMargin }), 'rail')
            }
            min={0}
            max={100}
            large
          />
          <LengthField
            label="Kept round holes"
            value={settings.clearHoles}
            onChange={(clearHoles) =>
              edit('Change hole clearance', (j) => changeFace(j, face, { clearHoles }), 'clear')
            }
            min={0}
            max={60}
          />
        </div>
        <Choice
          label="The surface is unrolled"
          value={settings.development}
          options={[
            { value: 'balanced', label: 'Balanced', hint: 'Stretch shared between centreline and rails' },
            {
              value: 'centreline',
              label: 'True on the centreline',
              hint: 'Lengths exact on the centreline, all error at the rails',
            },
          ]}
          onChange={(development) => edit('Change unrolling', (j) => changeFace(j, face, { development }))}
        />
      </Card>
    </InTurn>
  );
}
