import { useId } from 'react';
import { Card, Pick } from '../bench/index.ts';
import { formatLength, useStudio } from '../state/index.ts';

/** mm a pull can be moved on the slider: well beyond what a hand strays. */
const REACH = 2;

/** One pull out of register, and the face as it would then print. */
export function MovePull() {
  const id = useId();
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const moved = useStudio((s) => s.moved);
  const { inks } = job.faces[face];
  const inkId = inks.some((i) => i.id === moved?.inkId) ? moved!.inkId : (inks.at(-1)?.id ?? '');
  const { along, across } = moved ?? { along: 0, across: 0 };
  const put = (change: Partial<{ inkId: string; along: number; across: number }>) =>
    useStudio.setState({ moved: { inkId, along, across, ...change } });
  const slide = (
    label: string,
    value: number,
    set: (mm: number) => void,
    ends: readonly [string, string],
  ) => {
    const shown = formatLength(Math.abs(value), job.units, 2);
    return (
      <div className="slide">
        {/* By id: a label that holds an output would name that and not the slider. */}
        <label htmlFor={`${id}${ends[1]}`}>{label}</label>
        <output htmlFor={`${id}${ends[1]}`}>{formatLength(value, job.units, 2)}</output>
        <input
          id={`${id}${ends[1]}`}
          type="range"
          min={-REACH}
          max={REACH}
          step={0.05}
          value={value}
          aria-valuetext={value === 0 ? shown : `${shown} ${value < 0 ? ends[0] : ends[1]}`}
          onChange={(e) => set(Number(e.target.value))}
        />
      </div>
    );
  };
  return (
    <Card
      title="One pull out of register"
      action={
        moved && (
          <button type="button" className="tape-button" onClick={() => useStudio.setState({ moved: null })}>
            Back in register
          </button>
        )
      }
    >
      <p className="hint">
        The deck shows the print with this pull moved. Where wood or base shows that the art does not have,
        the trap is too narrow for that much.
      </p>
      {inks.length === 0 ? (
        <p className="empty">Choose inks first.</p>
      ) : (
        <>
          <Pick
            label="Pull"
            value={inkId}
            options={inks.map((ink, i) => ({ value: ink.id, label: `${i + 1} ${ink.name}` }))}
            onChange={(id) => put({ inkId: id })}
          />
          {slide('Along, to the nose', along, (mm) => put({ along: mm }), ['tailwards', 'nosewards'])}
          {slide('Across, up', across, (mm) => put({ across: mm }), ['down', 'up'])}
        </>
      )}
    </Card>
  );
}
