import type { Calculation } from '../../core/press/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import './screens.css';

/** Large figures of a result, or why there is none; beneath, the formula and what was taken for granted. */
export function Worked<R>({
  found,
  children,
}: {
  found: Outcome<Calculation<R>>;
  children: (result: R) => React.ReactNode;
}) {
  if (!found.ok)
    return (
      <p className="worked-trouble" role="status">
        {found.reason} {found.mend}
      </p>
    );
  const { result, formula, assumptions } = found.value;
  return (
    <div className="worked">
      {children(result)}
      <details>
        <summary>Formula, and where the defaults come from</summary>
        <p className="formula">{formula}</p>
        <ul className="assumptions">
          {assumptions.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </details>
    </div>
  );
}
