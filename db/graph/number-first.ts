import type { PartId } from '../../reasoner/index.ts';
import type { NearNumber, NodeRef, NumberedPart, NumbersAnswer } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import { sittingsOfModels } from './may-sit.ts';
import { nearNumbers } from './near-numbers.ts';
import { refOf } from './node-refs.ts';
import { partPage } from './pages.ts';
import { compact } from './search-terms.ts';

/** So many parts of one number are told whole: more makers than use one number. */
const mostParts = 8;
/** So many numbers near to one that nobody has. */
const mostNear = 12;
/** Longer ones are no part numbers, and would be long to vary. */
const mostSigns = 40;

/**
 * What the atlas knows of a part number, spaces, signs and case passed over: each part that was sold under it, with where it is used, what it took the place of and what took its
 * place, and what else fits there. Where no part has it, those one slip of the hand away, then those that begin so.
 */
export const numbersAnswer = async (reader: Reader, text: string): Promise<NumbersAnswer> => {
  const typed = compact(text);
  if (typed === '') return { typed, parts: [], near: [] };
  const found = await reader.all<{ node_id: PartId; term: string }>(
    `select node_id, min(term) as term from search_terms where compact = ? and node_kind = 'part' and field = 'number' group by node_id order by min(n) limit ?`,
    [typed, mostParts],
  );
  const parts: NumberedPart[] = [];
  for (const { node_id: part, term } of found) parts.push(await numberedPart(reader, part, term));
  return { typed, parts, near: parts.length > 0 || [...typed].length > mostSigns ? [] : await nearTo(reader, typed) };
};

const numberedPart = async (reader: Reader, id: PartId, number: string): Promise<NumberedPart> => {
  const { part, slot, maker, numbers, supersession, sitsIn } = await partPage(reader, id);
  const at = supersession.findIndex((one) => one.id === id);
  const models = sitsIn.flatMap(({ model }) => (model.kind === 'model' ? [model.id] : []));
  const others = (await sittingsOfModels(reader, models)).filter((sitting) => sitting.slot === slot && sitting.part !== id);
  return {
    part,
    number,
    maker,
    slot,
    numbers,
    sitsIn,
    tookThePlaceOf: supersession.slice(0, at),
    replacedBy: supersession.slice(at + 1),
    others: [...groupBy(others, (sitting) => sitting.part)].map(([other, sittings]) => ({
      part: refOf('part', { id: other, name: sittings[0]?.partName ?? other }),
      in: sittings.map(({ model, modelName, role }) => ({ model: refOf('model', { id: model, name: modelName }), role })),
    })),
    alike: await alikeAtTheJoints(reader, id),
  };
};

/**
 * Other parts of the slot whose dimensions are, at every joint, all known and the same: whatever meets this part meets them alike. Null where the atlas does not know a dimension of
 * this one, or where fits have not been worked out.
 */
const alikeAtTheJoints = async (reader: Reader, part: PartId): Promise<readonly NodeRef[] | null> => {
  const mine = await reader.all<{ mating: number; facts: string }>(
    `select c.mating, m.facts from mates c join matings m on m.n = c.mating where c.part = ? and exists (select 1 from meta where key = 'fits')`,
    [part],
  );
  if (mine.length === 0 || mine.some(({ facts }) => facts.includes('"not known"'))) return null;
  const rows = await reader.all<{ id: string; name: string }>(
    `select p.id, p.name from mates c join parts p on p.id = c.part
     where c.mating in (select value from json_each(?)) and p.id <> ? group by p.id having count(*) = ? order by p.pack, p.position`,
    [JSON.stringify(mine.map(({ mating }) => mating)), part, mine.length],
  );
  return rows.map((row) => refOf('part', row));
};

const nearTo = async (reader: Reader, typed: string): Promise<NearNumber[]> => {
  const slips = nearNumbers(typed);
  const rows = await reader.all<{ id: string; name: string; term: string; compact: string }>(
    `select p.id, p.name, s.term, s.compact from json_each(?) j join search_terms s on s.compact = j.value join parts p on p.id = s.node_id
     where s.node_kind = 'part' and s.field = 'number' order by j.key, s.n limit ?`,
    [JSON.stringify([...slips.keys()]), mostNear],
  );
  const near = rows.map(
    (row): NearNumber => ({ part: refOf('part', row), number: row.term, slip: slips.get(row.compact) ?? 'one sign is another' }),
  );
  if (near.length > 0) return near;
  const longer = await reader.all<{ id: string; name: string; term: string }>(
    `select p.id, p.name, s.term from search_terms s join parts p on p.id = s.node_id
     where s.compact > ? and s.compact < ? and s.node_kind = 'part' and s.field = 'number' order by s.compact, s.n limit ?`,
    [typed, `${typed}\u{10ffff}`, mostNear],
  );
  return longer.map((row) => ({ part: refOf('part', row), number: row.term, slip: null }));
};
