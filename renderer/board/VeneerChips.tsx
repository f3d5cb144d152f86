import { useStudio } from '../state/index.ts';

/** The run's veneers; the chosen one is what the deck is shown in. */
export function VeneerChips() {
  const job = useStudio((s) => s.job);
  const chosen = useStudio((s) => s.veneerId) ?? job?.veneers[0]?.id;
  if (!job) return null;
  return (
    <fieldset className="chips">
      <legend className="unseen">Veneer shown</legend>
      {job.veneers.map((v) => (
        <label key={v.id} className="chip" title={v.name}>
          <input
            type="radio"
            name="veneer"
            checked={v.id === chosen}
            onChange={() => useStudio.setState({ veneerId: v.id })}
          />
          <span className="chip-wood" style={{ background: v.hex }} />
          <span className="chip-name">{v.name}</span>
        </label>
      ))}
    </fieldset>
  );
}
