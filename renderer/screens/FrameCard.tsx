import { outlineRing } from '../../core/deck/index.ts';
import { innerFrame, USUAL } from '../../core/press/index.ts';
import { Card, LengthField, Pick } from '../bench/index.ts';
import { changePress, edit, formatLength, useStudio } from '../state/index.ts';
import { Worked } from './Worked.tsx';

/** Frame and off-contact, with the smallest frame that does. */
export function FrameCard() {
  const job = useStudio((s) => s.job)!;
  const { press } = job;
  const frames = useStudio((s) => s.shop.frames);
  const sideMargin = press.sideMargin ?? USUAL.sideMargin.value;
  const inkWell = press.inkWell ?? USUAL.inkWell.value;
  const put = (label: string, change: Partial<typeof press>) =>
    edit(label, (j) => changePress(j, change), `press ${Object.keys(change)}`);
  const xs = outlineRing(job.deck, 'bottom', 0.5).map(([x]) => x);
  // Films carry their marks some 15 mm off the art on each side.
  const filmLength = Math.max(...xs) - Math.min(...xs) + 30;
  const found = innerFrame({
    filmLength,
    filmWidth: job.deck.width,
    blade: press.blade,
    sideMargin,
    inkWell,
  });
  const here = frames.find((f) => f.width === press.frameWidth && f.length === press.frameLength)?.name ?? '';
  return (
    <Card title="Frame">
      {frames.length > 0 && (
        <Pick
          label="A frame of your shop"
          value={here}
          options={[
            ...(here === '' ? [{ value: '', label: 'none of them' }] : []),
            ...frames.map((f) => ({ value: f.name, label: f.name })),
          ]}
          onChange={(name) => {
            const frame = frames.find((f) => f.name === name);
            if (!frame) return;
            const { width, length, bar, count } = frame;
            put('Choose frame', {
              frameWidth: width,
              frameLength: length,
              ...(bar === undefined ? {} : { frameBar: bar }),
              ...(count === undefined ? {} : { frames: count }),
            });
          }}
        />
      )}
      <div className="fields">
        <LengthField
          label="Inside, along"
          value={press.frameLength}
          min={0}
          max={5000}
          step={10}
          onChange={(frameLength) => put('Change frame', { frameLength })}
        />
        <LengthField
          label="Inside, across"
          value={press.frameWidth}
          min={0}
          max={3000}
          step={10}
          onChange={(frameWidth) => put('Change frame', { frameWidth })}
        />
        <LengthField
          label="Off-contact"
          value={press.offContact}
          min={0}
          max={100}
          step={0.5}
          onChange={(offContact) => put('Change off-contact', { offContact })}
        />
        <LengthField
          label="Free beside the blade"
          value={sideMargin}
          min={0}
          max={1000}
          step={5}
          hint={USUAL.sideMargin.better}
          onChange={(n) => put('Change frame margins', { sideMargin: n })}
        />
        <LengthField
          label="Free at each end, for ink"
          value={inkWell}
          min={0}
          max={1000}
          step={5}
          hint={USUAL.inkWell.better}
          onChange={(n) => put('Change frame margins', { inkWell: n })}
        />
      </div>
      <Worked found={found}>
        {({ width, length, offContact }) => (
          <p>
            A film of {formatLength(filmLength, job.units, 0)} wants a frame of at least{' '}
            <b>
              {formatLength(length, job.units, 0)} × {formatLength(width, job.units, 0)}
            </b>{' '}
            inside; start off-contact from {formatLength(offContact, job.units)}.
          </p>
        )}
      </Worked>
    </Card>
  );
}
