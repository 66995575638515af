import { columnsOf } from '../atlas/columns.ts';
import { everyList } from '../atlas/lists.ts';
import type { Pack } from '../atlas/pack.ts';
import type { Statement } from '../driver/driver.ts';

/**
 * What goes before a pack writes shared entries that packs to be replaced in the same batch hold too, and may say otherwise: the rows beside the entry's own,
 * which are not overwritten by its new ones where there are fewer.
 */
export function* takingOver(pack: Pack, from: readonly Pack[]): Generator<Statement> {
  for (const { name, shared, numbered, children } of everyList) {
    if (!shared) continue;
    const theirs = new Set(from.flatMap((other) => other[name].map(({ id }) => id as string)));
    const taken = pack[name].map(({ id }) => id as string).filter((id) => theirs.has(id));
    if (taken.length === 0 || children.length === 0) continue;
    if (numbered !== null) throw new Error(`rows beside the numbered list ${name} are not taken over`);
    for (const { table, of } of children) {
      const { table: in_, keys, names } = columnsOf(table);
      yield {
        sql: `delete from ${in_} where ${names[keys.indexOf(of)]} in (select value from json_each(?))`,
        params: [JSON.stringify(taken)],
      };
    }
  }
}
