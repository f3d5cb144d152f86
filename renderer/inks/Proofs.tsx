import { Card, Picture } from '../bench/index.ts';
import { useStudio } from '../state/index.ts';

const set = useStudio.setState;

/** The run side by side: a proof on each veneer, and in each colourway where there are several. */
export function Proofs() {
  const job = useStudio((s) => s.job)!;
  const { veneers: woods, colourways } = job;
  return colourways.length > 1 ? (
    <Card title={`Every deck of the run: ${woods.length} × ${colourways.length}`} wide>
      <Grid />
    </Card>
  ) : (
    <Card title="On each veneer">
      <Row />
    </Card>
  );
}

function Row() {
  const job = useStudio((s) => s.job)!;
  const veneers = useStudio((s) => s.proofs?.veneers);
  const chosen = useStudio((s) => s.veneerId) ?? job.veneers[0]?.id;
  return (
    <div className="proof-grid">
      {job.veneers.map((v) => (
        <button
          key={v.id}
          type="button"
          aria-pressed={v.id === chosen}
          onClick={() => set({ veneerId: v.id })}
        >
          <Picture bitmap={veneers?.get(v.id)} label={`Proof on ${v.name}`} />
          <span>
            {v.name} <small>{v.decks} decks</small>
          </span>
        </button>
      ))}
    </div>
  );
}

function Grid() {
  const job = useStudio((s) => s.job)!;
  const grid = useStudio((s) => s.proofs?.grid);
  const veneerId = useStudio((s) => s.veneerId) ?? job.veneers[0]?.id;
  const colourwayId = useStudio((s) => s.colourwayId) ?? job.colourways[0]?.id;
  return (
    <div className="run-grid-frame">
      <table className="run-grid">
        <caption className="unseen">Proofs on every veneer in every colourway</caption>
        <thead>
          <tr>
            <td />
            {job.colourways.map((way) => (
              <th key={way.id} scope="col">
                {way.name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {job.veneers.map((v) => (
            <tr key={v.id}>
              <th scope="row">
                {v.name} <small>{v.decks} decks</small>
              </th>
              {job.colourways.map((way, i) => (
                <td key={way.id}>
                  <button
                    type="button"
                    aria-pressed={v.id === veneerId && way.id === colourwayId}
                    aria-label={`${v.name} in ${way.name}`}
                    onClick={() => set({ veneerId: v.id, colourwayId: i === 0 ? null : way.id })}
                  >
                    <Picture
                      bitmap={grid?.get(`${v.id} ${way.id}`)}
                      label={`Proof on ${v.name}, ${way.name}`}
                    />
                  </button>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
