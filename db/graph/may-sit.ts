import type { ModelId, PartId, Role, SlotId } from '../../reasoner/index.ts';
import type { Reader } from '../driver/driver.ts';

/** A part that may sit in a model: listed there, or in the place of a listed part that it supersedes in any number of steps. */
export interface Sitting {
  readonly model: ModelId;
  readonly modelName: string;
  readonly slot: SlotId;
  readonly part: PartId;
  readonly partName: string;
  readonly role: Role;
  /** The listed part itself, or the one it stands in for. */
  readonly listed: PartId;
  readonly listedName: string;
}

const columns = `m.id as model, m.name as modelName, p.slot, p.id as part, p.name as partName, c.role, l.id as listed, l.name as listedName
  from chain c join models m on m.n = c.model join parts p on p.n = c.part join parts l on l.n = c.listed`;

/** Everything that may sit in these models; a part once a model, as listed where it is listed. By slot, then as the parts stand. */
export const sittingsOfModels = async (reader: Reader, models: readonly ModelId[]): Promise<Sitting[]> =>
  once(
    await reader.all<Sitting>(
      `with recursive chain(model, role, listed, part) as (
         select s.model, s.role, s.part, s.part from sits s join models m on m.n = s.model where m.id in (select value from json_each(?))
         union select c.model, c.role, c.listed, p.n from chain c join parts p on p.supersedes = c.part)
       select ${columns}
       left join (select id, min(position) as position from pack_terms where kind = 'slot' group by id) o on o.id = p.slot
       order by m.pack, m.position, o.position, (c.listed <> c.part), p.pack, p.position, l.position`,
      [JSON.stringify(models)],
    ),
  );

/** Every model this part may sit in. */
export const sittingsOfPart = async (reader: Reader, part: PartId): Promise<Sitting[]> =>
  once(
    await reader.all<Sitting>(
      `with recursive older(part) as (
         select n from parts where id = ?1
         union select p.supersedes from older o join parts p on p.n = o.part where p.supersedes is not null),
       chain(model, role, listed, part) as (
         select s.model, s.role, s.part, (select n from parts where id = ?1) from older o join sits s on s.part = o.part)
       select ${columns}
       order by m.pack, m.position, (c.listed <> c.part), l.position`,
      [part],
    ),
  );

/** The first sitting of each part in each model. */
const once = (rows: readonly Sitting[]): Sitting[] => {
  const seen = new Set<string>();
  return rows.filter(({ model, part }) => {
    const key = `${model} ${part}`;
    return !seen.has(key) && seen.add(key);
  });
};
