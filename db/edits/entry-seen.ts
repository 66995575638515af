import { entriesIn, type Pack } from '../atlas/pack.ts';
import { cellSeen } from '../changes/cell-seen.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { oneOf } from './entries.ts';
import type { Ground } from './ground.ts';
import type { EditedList, EntrySeen } from './seen.ts';

/** An entry as the atlas has it, whose it is, and where the shop says otherwise than the first of the packs that hold it. Throws `not-found`. */
export const entrySeen = ({ head, rows, held }: Pick<Ground, 'head' | 'rows' | 'held'>, list: EditedList, id: string): EntrySeen => {
  const holders = rows.flatMap((row) => {
    const entry = entriesIn(held.get(row.id)?.pack as Pack, list).find((each) => each.id === id);
    return entry === undefined ? [] : [{ row, entry }];
  });
  const [first] = holders;
  if (first === undefined) throw new TroubleError(trouble('not-found', `${list}/${id}`, `The atlas has no ${oneOf(list)} “${id}”.`));
  return {
    head: head.id,
    entry: first.entry as unknown as Readonly<Record<string, unknown>>,
    packs: holders.map(({ row }) => ({ id: row.id, title: row.title, own: row.own })),
    words: [...(held.get(first.row.id)?.words ?? [])].flatMap(([key, { own, said }]) => {
      const { list: of, id: whose, field, line } = cellSeen(key);
      return of === list && whose === id ? [{ pack: first.row.id, field, line, own: own?.is ?? null, said: said?.is ?? null }] : [];
    }),
  };
};
