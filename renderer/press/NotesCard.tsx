import { Card } from '../bench/index.ts';
import { Cautions } from '../screens/index.ts';
import { edit, sealEdits, useStudio } from '../state/index.ts';

/** Shop, notes, and the cautions of printing and coating. */
export function NotesCard() {
  const job = useStudio((s) => s.job)!;
  return (
    <Card title="Notes of the run">
      <div className="field">
        <label htmlFor="shop">Shop</label>
        <input
          id="shop"
          value={job.shop}
          maxLength={200}
          onChange={(e) => edit('Change shop', (j) => ({ ...j, shop: e.target.value }), 'shop')}
          onBlur={sealEdits}
        />
      </div>
      <div className="field">
        <label htmlFor="notes">Notes</label>
        <textarea
          id="notes"
          rows={6}
          value={job.notes}
          maxLength={20000}
          onChange={(e) => edit('Change notes', (j) => ({ ...j, notes: e.target.value }), 'notes')}
          onBlur={sealEdits}
        />
      </div>
      <Cautions of={['any', 'printing', 'cleaning', 'coats']} />
    </Card>
  );
}
