import { type ReactNode, useId, useRef } from 'react';
import { useRows } from './useRows.ts';

/** A paper label on the bench, held by a strip of tape that carries its name. */
export function Card({
  title,
  children,
  wide,
  action,
}: {
  title: string;
  children: ReactNode;
  wide?: boolean;
  action?: ReactNode;
}) {
  const id = useId();
  const element = useRef<HTMLElement>(null);
  useRows(element);
  return (
    <section ref={element} className={`card${wide ? ' card-wide' : ''}`} aria-labelledby={id}>
      <header className="tape">
        <h2 id={id}>{title}</h2>
        {action}
      </header>
      <div className="card-body">{children}</div>
    </section>
  );
}

/** A measure in large type with a word beneath. */
export function Measure({ value, unit, label }: { value: string; unit?: string; label: string }) {
  return (
    <div className="measure">
      <span className="measure-value">
        {value}
        {unit && <small> {unit}</small>}
      </span>
      <span className="measure-label">{label}</span>
    </div>
  );
}
