import { cautionsFor, DEFER, type Work } from '../../core/press/index.ts';
import './screens.css';

/** The usual cautions of some work, in general words. */
export function Cautions({ of }: { of: readonly Work[] }) {
  return (
    <aside className="cautions" aria-label="Cautions">
      <ul>
        {cautionsFor(of).map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      <p>{DEFER}</p>
    </aside>
  );
}
