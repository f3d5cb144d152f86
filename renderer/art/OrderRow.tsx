import { Icon } from '../bench/index.ts';
import { edit, type Order, reordered, useStudio } from '../state/index.ts';

const WAYS: readonly (readonly [Order, string, string])[] = [
  ['front', 'To the front', 'Bring art to the front'],
  ['forward', 'Forward', 'Bring art forward'],
  ['back', 'Back', 'Send art back'],
  ['rear', 'To the back', 'Send art to the back'],
];

/** Which pieces lie over which. */
export function OrderRow({ ids }: { readonly ids: readonly string[] }) {
  const face = useStudio((s) => s.face);
  const job = useStudio((s) => s.job)!;
  return (
    <div className="button-row">
      {WAYS.map(([order, label, name]) => (
        <button
          key={order}
          type="button"
          disabled={reordered(job, face, ids, order) === job}
          onClick={() => edit(name, (j) => reordered(j, face, ids, order))}
        >
          <Icon name={order === 'front' || order === 'forward' ? 'up' : 'down'} /> {label}
        </button>
      ))}
    </div>
  );
}
