import { getTableName } from 'drizzle-orm';
import type { Atlas, Model } from '../../reasoner/index.ts';
import type { Named } from '../atlas/list.ts';
import { everyList, partList } from '../atlas/lists.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import type { Allowance, Pack } from './pack.ts';

/**
 * The atlas as it is read once a pack stands beside the others: each list in the order of packs by id, shared entries in that of the first pack that
 * holds them, a model's parts by slot, then as the parts stand.
 * @param beside the atlas without the pack
 */
export const atlasWith = async (reader: Reader, beside: Atlas, pack: Pack): Promise<Omit<Atlas, 'edition'>> => {
  const { id } = pack.head;
  const heldBefore = groupBy(
    await reader.all<{ kind: string; id: string }>('select distinct kind, id from pack_terms where pack < ?', [id]),
    ({ kind }) => kind,
  );
  const ownBefore = async (table: string): Promise<number> =>
    (await reader.all<{ many: number }>(`select count(*) as many from ${table} where pack < ?`, [id]))[0]?.many ?? 0;
  const lists: Record<string, readonly Named[]> = {};
  for (const { name, one, shared, table } of everyList) {
    const [others, own]: [readonly Named[], readonly Named[]] = [beside[name] ?? [], pack[name]];
    if (shared) {
      const first = new Set((heldBefore.get(one) ?? []).map((row) => row.id));
      const mine = new Set(own.map((entry) => entry.id));
      lists[name] = [
        ...others.filter((entry) => first.has(entry.id)),
        ...own.filter((entry) => !first.has(entry.id)),
        ...others.filter((entry) => !first.has(entry.id) && !mine.has(entry.id)),
      ];
    } else {
      const before = await ownBefore(getTableName(table));
      lists[name] = [...others.slice(0, before), ...own, ...others.slice(before)];
    }
  }
  const partsBefore = await ownBefore(getTableName(partList.table));
  const parts = [...beside.parts.slice(0, partsBefore), ...pack.parts, ...beside.parts.slice(partsBefore)];
  const all = { ...lists, parts } as unknown as Omit<Atlas, 'edition'>;
  // What other packs list in this one's models.
  const listed = await reader.all<Allowance>(
    `select m.id as model, p.slot, p.id as part, s.role from sits s join models m on m.n = s.model join parts p on p.n = s.part
     where s.pack <> ? and m.pack = ?`,
    [id, id],
  );
  const allowed = beside.models.flatMap((model) => model.allowed.map((line) => ({ model: model.id, ...line })));
  return { ...all, models: withAllowed(all, [...allowed, ...listed, ...pack.allowed]) };
};

const withAllowed = (all: Omit<Atlas, 'edition'>, allowed: readonly Allowance[]): readonly Model[] => {
  const rankIn = (entries: readonly Named[]) => new Map<string, number>(entries.map(({ id }, rank) => [id, rank]));
  const [slots, parts] = [rankIn(all.slots), rankIn(all.parts)];
  const lines = groupBy(allowed, ({ model }) => model);
  return all.models.map((model) => {
    const of = (lines.get(model.id) ?? []).map(({ slot, part, role }) => ({ slot, part, role }));
    of.sort((a, b) => (slots.get(a.slot) ?? 0) - (slots.get(b.slot) ?? 0) || (parts.get(a.part) ?? 0) - (parts.get(b.part) ?? 0));
    return { ...model, allowed: of };
  });
};
