import type { Art } from '../../core/job/index.ts';
import { fitArt } from '../acts/index.ts';
import { Card, Choice, Icon, LengthField, NumberBox, Toggle } from '../bench/index.ts';
import { changeArt, edit, useStudio } from '../state/index.ts';
import { OrderRow } from './OrderRow.tsx';
import { duplicatePieces } from './pieceCopies.ts';

/** Where the selected piece lies, in numbers. */
export function PlaceCard({ piece }: { piece: Art }) {
  const face = useStudio((s) => s.face);
  const put = (label: string, change: Partial<Art>) =>
    edit(label, (j) => changeArt(j, face, piece.id, change), `${label} ${piece.id}`);
  const ratio = piece.height / piece.width;
  return (
    <Card title="Place">
      <div className="button-row">
        <button type="button" onClick={() => void fitArt(face, piece.id, 'cover')}>
          Cover deck
        </button>
        <button type="button" onClick={() => void fitArt(face, piece.id, 'contain')}>
          Fit inside
        </button>
        <button type="button" onClick={() => void fitArt(face, piece.id, 'actual')}>
          Actual size
        </button>
      </div>
      <div className="fields">
        <LengthField
          label="Width"
          value={piece.width}
          min={0.1}
          max={5000}
          step={1}
          large
          onChange={(width) => put('Size art', { width, height: Math.max(0.1, width * ratio) })}
        />
        <LengthField
          label="Height"
          value={piece.height}
          min={0.1}
          max={5000}
          step={1}
          large
          onChange={(height) => put('Size art', { height, width: Math.max(0.1, height / ratio) })}
        />
        <LengthField
          label="From mid-wheelbase, to nose"
          value={piece.x}
          onChange={(x) => put('Move art', { x })}
          step={1}
        />
        <LengthField
          label="From centreline, up"
          value={piece.y}
          onChange={(y) => put('Move art', { y })}
          step={1}
        />
        <NumberBox
          label="Turned"
          value={piece.rotationDeg}
          min={-3600}
          max={3600}
          unit="°"
          onChange={(rotationDeg) => put('Turn art', { rotationDeg })}
        />
      </div>
      <div className="button-row">
        <button type="button" onClick={() => put('Centre art', { y: 0 })}>
          <Icon name="align" /> On centreline
        </button>
        <button type="button" onClick={() => put('Centre art along', { x: 0 })}>
          Mid-wheelbase
        </button>
        <button
          type="button"
          onClick={() => put('Quarter turn', { rotationDeg: ((piece.rotationDeg + 90 + 180) % 360) - 180 })}
        >
          <Icon name="undo" /> Quarter turn
        </button>
        <button type="button" onClick={() => duplicatePieces([piece.id])}>
          <Icon name="copy" /> Duplicate
        </button>
      </div>
      <OrderRow ids={[piece.id]} />
      <Toggle label="Mirrored" on={piece.mirror} onChange={(mirror) => put('Mirror art', { mirror })} />
      <Choice
        label="Lies on the wood"
        value={piece.wrap}
        options={[
          {
            value: 'surface',
            label: 'Along the surface',
            hint: 'Lengths are kept along the bend: a circle stays round on the wood',
          },
          {
            value: 'plan',
            label: 'As seen from above',
            hint: 'Looks right from straight above, stretched on the kicks',
          },
        ]}
        onChange={(wrap) => put('Change wrap', { wrap })}
      />
    </Card>
  );
}
