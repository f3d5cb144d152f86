import { fillFromShop, isEmptyShop, keepForShop } from '../../core/shop/index.ts';
import { changeShop } from '../acts/index.ts';
import { Card, ThingTable } from '../bench/index.ts';
import { edit, useStudio } from '../state/index.ts';
import { LISTS } from './lists.ts';
import './shop.css';

/** What the shop has and how it works, kept apart from the job, and the two ways between them. */
export function ShopCard() {
  const shop = useStudio((s) => s.shop);
  const job = useStudio((s) => s.job)!;
  const own = Object.values(shop.habits).filter((value) => value !== undefined).length;
  return (
    <Card title="Your shop" wide>
      <p className="hint">
        Kept on this machine, apart from every job. A new job begins with the first of each list; a job keeps
        its own copy, so that changing the shop changes no job.
      </p>
      <div className="row-buttons">
        <button
          type="button"
          className="button-main"
          onClick={() =>
            void changeShop((s) => keepForShop(s, job), 'This job’s figures are kept for your next ones.')
          }
        >
          Keep this job’s figures for the shop
        </button>
        <button
          type="button"
          disabled={isEmptyShop(shop)}
          onClick={() => edit('Fill in from the shop', (j) => fillFromShop(j, shop))}
        >
          Fill in what this job leaves open
        </button>
      </div>
      {own > 0 && (
        <p className="hint">
          {own} of your own figures for planning and counting are kept too: times, hours, people, racks,
          prices.
        </p>
      )}
      <div className="shop-lists">
        {LISTS.map(({ list, title, one, fresh, columns }) => (
          <ThingTable
            key={list}
            title={title}
            one={one}
            rows={shop[list]}
            columns={columns}
            fresh={fresh}
            onChange={(rows) => void changeShop((s) => ({ ...s, [list]: rows }))}
          />
        ))}
        {shop.printers.length > 0 && (
          <section className="thing-list" aria-label="Printers">
            <h3>Printers</h3>
            <ul className="shop-printers">
              {shop.printers.map((printer) => (
                <li key={printer.name}>
                  <b>{printer.name}</b> {printer.sheet}, {printer.dpi} dpi{' '}
                  <button
                    type="button"
                    aria-label={`Remove ${printer.name}`}
                    onClick={() =>
                      void changeShop((s) => ({
                        ...s,
                        printers: s.printers.filter((p) => p.name !== printer.name),
                      }))
                    }
                  >
                    Remove
                  </button>
                </li>
              ))}
            </ul>
          </section>
        )}
      </div>
    </Card>
  );
}
