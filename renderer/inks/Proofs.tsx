import { Card, Picture } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';

/** The run side by side: a proof on each veneer. */
export function Proofs() {
  const job = useStudio((s) => s.job)!;
  const veneers = useStudio((s) => s.proofs?.veneers);
  const chosen = useStudio((s) => s.veneerId) ?? job.veneers[0]?.id;
  return (
    <Card title="On each veneer">
      <div className="proof-grid">
        {job.veneers.map((v) => (
          <button
            key={v.id}
            type="button"
            aria-pressed={v.id === chosen}
            onClick={() => useStudio.setState({ veneerId: v.id })}
          >
            <Picture bitmap={veneers?.get(v.id)} label={`Proof on ${v.name}`} />
            <span>
              {v.name} <small>{v.decks} decks</small>
            </span>
          </button>
        ))}
      </div>
    </Card>
  );
}
