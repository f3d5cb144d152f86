import { type PointerEvent, useRef } from 'react';
import { putBoundaries } from '../acts/index.ts';
import { Card } from '../bench/index.ts';
import { type FilmShown, sealEdits, useStudio } from '../state/index.ts';

/** The chosen film's sheets, with boundaries to drag; the cut is found anew as they move. */
export function BoundariesCard({ film, name }: { readonly film: FilmShown; readonly name: string }) {
  const job = useStudio((s) => s.job)!;
  const face = useStudio((s) => s.face);
  const held = useRef<{ readonly boundary: number; readonly aside: number } | null>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const { box, boundaries, sheets } = film.film;
  if (boundaries.length === 0) return null;
  const moved = job.faces[face].boundaries?.[film.inkId] !== undefined;
  const put = (mm: readonly number[] | null) => putBoundaries(face, film.inkId, mm);
  const shift = (i: number, to: number) => put(boundaries.map((mm, k) => (k === i ? to : mm)));
  /** Where the pointer is along the film, mm. */
  const along = (event: PointerEvent): number | null => {
    const matrix = drawing.current?.getScreenCTM();
    if (!matrix) return null;
    return new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse()).x;
  };
  const drag = (event: PointerEvent) => {
    const mm = held.current && along(event);
    if (held.current && mm !== null) shift(held.current.boundary, mm - held.current.aside);
  };
  const letGo = () => {
    if (held.current) sealEdits();
    held.current = null;
  };
  const y = (v: number) => -v;
  const top = y(box.y + box.height);
  const crossings = sheets.flatMap((sheet) => sheet.crossings);
  return (
    <Card title={`Where the sheets of ${name} meet`} wide>
      {/** biome-ignore lint/a11y/noSvgWithoutTitle: the sliders inside say what they are */}
      <svg
        ref={drawing}
        className="boundaries"
        viewBox={`${box.x} ${top} ${box.width} ${box.height}`}
        onPointerMove={drag}
        onPointerUp={letGo}
        onPointerCancel={letGo}
      >
        {sheets.map((sheet, i) => (
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
        {sheets.flatMap((sheet) =>
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
              const at = along(event);
              if (at === null) return;
              // The boundary stays under the place where it was taken hold of.
              held.current = { boundary: i, aside: at - mm };
              sealEdits();
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
        Drag a boundary, here or on the deck, or use the arrow keys: the cut between the sheets is found anew.{' '}
        {sheets.length} sheets, {crossings.length} places where cuts cross ink.
      </p>
      {moved && (
        <button type="button" onClick={() => put(null)}>
          Let Kickflat choose
        </button>
      )}
    </Card>
  );
}
