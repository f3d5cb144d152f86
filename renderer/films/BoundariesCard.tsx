import { type PointerEvent, useMemo, useRef } from 'react';
import type { Job } from '../../core/job/index.ts';
import { Card } from '../bench/index.ts';
import { edit, type FilmShown, onFace, tell, useStudio } from '../state/index.ts';
import { back, latestWins } from '../workers/index.ts';

/** Middles of the strips two columns of sheets share, film mm, tail to nose. */
function boundariesOf(film: FilmShown): number[] {
  const first = film.sheets.filter((sheet) => sheet.row === 0).sort((a, b) => a.column - b.column);
  return first.slice(1).map((sheet, i) => {
    const before = first[i]!.window;
    return (before.x + before.width + sheet.window.x) / 2;
  });
}

const withBoundaries = (job: Job, face: 'bottom' | 'top', inkId: string, mm: readonly number[] | null): Job =>
  onFace(job, face, (f) => {
    const { [inkId]: _old, ...others } = f.boundaries ?? {};
    return { ...f, boundaries: mm === null ? others : { ...others, [inkId]: [...mm] } };
  });

/** The chosen film's sheets, with boundaries to drag; the cut is found anew as they move. */
export function BoundariesCard({ film, name }: { readonly film: FilmShown; readonly name: string }) {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const held = useRef<number | null>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const plan = useMemo(
    () =>
      latestWins<{ job: Job; face: 'bottom' | 'top' }, Awaited<ReturnType<typeof back.plan>>>(
        (asked) => back.plan(asked.job, asked.face),
        (made, asked) => {
          if (made.ok && useStudio.getState().face === asked.face)
            useStudio.setState({ filmPlan: made.value });
        },
        () => tell('trouble', 'The cut could not be found.', 'Undo the last change.'),
      ),
    [],
  );
  const { box } = film;
  const boundaries = boundariesOf(film);
  if (boundaries.length === 0) return null;
  const moved = job.faces[face].boundaries?.[film.inkId] !== undefined;
  const put = (mm: readonly number[] | null) => {
    edit('Move a sheet boundary', (j) => withBoundaries(j, face, film.inkId, mm), `boundary ${film.inkId}`);
    const now = useStudio.getState().job;
    if (now) plan({ job: now, face });
  };
  const shift = (i: number, to: number) => put(boundaries.map((mm, k) => (k === i ? to : mm)));
  const drag = (event: PointerEvent) => {
    const matrix = drawing.current?.getScreenCTM();
    if (held.current === null || !matrix) return;
    shift(held.current, new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse()).x);
  };
  const y = (v: number) => -v;
  const top = y(box.y + box.height);
  // Both sheets at a seam list its crossings, and so may two seams that meet: each place counts once.
  const crossings = [
    ...new Map(
      film.sheets.flatMap((sheet) => sheet.crossings.map((c) => [`${c[0]},${c[1]}`, c] as const)),
    ).values(),
  ];
  return (
    <Card title={`Where the sheets of ${name} meet`} wide>
      {/** biome-ignore lint/a11y/noSvgWithoutTitle: the sliders inside say what they are */}
      <svg
        ref={drawing}
        className="boundaries"
        viewBox={`${box.x} ${top} ${box.width} ${box.height}`}
        onPointerMove={drag}
        onPointerUp={() => {
          held.current = null;
        }}
      >
        {film.sheets.map((sheet, i) => (
          <rect
            key={`${sheet.column}/${sheet.row}`}
            x={sheet.window.x}
            y={y(sheet.window.y + sheet.window.height)}
            width={sheet.window.width}
            height={sheet.window.height}
            fill="currentColor"
            fillOpacity={i % 2 === 0 ? 0.12 : 0.05}
            stroke="currentColor"
            strokeOpacity={0.4}
          />
        ))}
        {film.sheets.flatMap((sheet) =>
          sheet.cuts.map((path) => (
            <polyline
              key={`${sheet.column}/${sheet.row}/${path[0]?.join()}`}
              points={path.map(([u, v]) => `${u},${y(v)}`).join(' ')}
              fill="none"
              stroke="var(--accent)"
              strokeWidth={2}
            />
          )),
        )}
        {crossings.map(([u, v]) => (
          <circle key={`${u},${v}`} cx={u} cy={y(v)} r={3} fill="var(--accent)" />
        ))}
        {boundaries.map((mm, i) => (
          <rect
            // biome-ignore lint/suspicious/noArrayIndexKey: a boundary is known by its place in the row
            key={i}
            x={mm - 10}
            y={top}
            width={20}
            height={box.height}
            fill="transparent"
            style={{ cursor: 'ew-resize', touchAction: 'none' }}
            role="slider"
            tabIndex={0}
            aria-label={`Boundary of sheets ${i + 1} and ${i + 2}`}
            aria-valuenow={Math.round(mm)}
            aria-valuetext={`${mm.toFixed(0)} mm`}
            onPointerDown={(event) => {
              held.current = i;
              drawing.current?.setPointerCapture(event.pointerId);
            }}
            onKeyDown={(event) => {
              const by = event.key === 'ArrowLeft' ? -1 : event.key === 'ArrowRight' ? 1 : 0;
              if (by === 0) return;
              event.preventDefault();
              shift(i, mm + by * (event.shiftKey ? 10 : 1));
            }}
          />
        ))}
      </svg>
      <p className="hint" aria-live="polite">
        Drag a boundary, or use the arrow keys: the cut between the sheets is found anew. {film.sheets.length}{' '}
        sheets, {crossings.length} places where cuts cross ink.
      </p>
      {moved && (
        <button type="button" onClick={() => put(null)}>
          Let Kickflat choose
        </button>
      )}
    </Card>
  );
}
