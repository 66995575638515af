import type { SalvagedRow } from '../salvage/salvage.ts';
import { type Gathering, origin, text, whats } from './gathering.ts';
import { shopTables } from './shop-tables.ts';

/** What was learnt, and whatever else stands by itself. */
export const gatherOthers = ({ damaged, from, put, complete, others }: Gathering): void => {
  for (const table of shopTables) {
    if (table.whose?.table === 'sheets' || table.name === 'case_counts' || table.name === 'photos') continue;
    const taken = new Set<string>();
    /** It is of a learner who was removed. */
    const without = (row: SalvagedRow): boolean =>
      table.whose !== null && complete('learners') && !damaged.table('learners').rows.has(JSON.stringify([row[table.whose.column]]));
    for (const [key, { row, loose }] of damaged.table(table.name).rows) {
      if (loose && without(row)) continue;
      taken.add(key);
      put(table.name, row);
    }
    for (const backup of others(table.name))
      for (const [key, { row }] of backup.table(table.name).rows) {
        if (taken.has(key) || without(row)) continue;
        taken.add(key);
        put(table.name, row);
        from.push({
          what: whats[table.name] ?? 'row',
          of: text(row[table.keys[0] ?? '']),
          source: origin(backup),
          saved: table.at === null ? null : text(row[table.at]),
        });
      }
  }
};
