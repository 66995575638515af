import { and, eq, inArray } from 'drizzle-orm';
import { type Cell, type CellKey, cellKept, type KeptCell, keptCell, sameCell } from '../atlas/cell.ts';
import { overwriting } from '../atlas/rows.ts';
import type { Statement } from '../driver/driver.ts';
import { build, insertRows, statementOf } from '../driver/statements.ts';
import * as t from '../schema.ts';
import type { OwnWords } from './own-words.ts';

/** A cell as one column keeps it. */
const writtenCell = (cell: Cell | null): string | null => (cell === null ? null : JSON.stringify(keptCell(cell)));

export const readCell = (text: string | null): Cell | null => (text === null ? null : cellKept(JSON.parse(text) as KeptCell));

const keysInStatement = 500;

/** What leads from some of the shop's words on a pack to others. */
export function* wordStatements(pack: string, before: OwnWords, after: OwnWords): Generator<Statement> {
  const gone: CellKey[] = [...before.keys()].filter((key) => !after.has(key));
  for (let from = 0; from < gone.length; from += keysInStatement)
    yield statementOf(
      build.delete(t.ownWords).where(and(eq(t.ownWords.pack, pack), inArray(t.ownWords.cell, gone.slice(from, from + keysInStatement)))),
    );
  const rows = [...after].flatMap(([cell, { own, said }]) => {
    const was = before.get(cell);
    return was !== undefined && sameCell(was.own, own) && sameCell(was.said, said)
      ? []
      : [{ pack, cell, own: writtenCell(own), said: writtenCell(said) }];
  });
  yield* insertRows(t.ownWords, rows, overwriting(t.ownWords));
}
