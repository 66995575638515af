import { eq, inArray, or } from 'drizzle-orm';
import type { FeatureId, Part, PartId, SlotId } from '../../reasoner/index.ts';
import type { Named } from '../atlas/list.ts';
import { lists } from '../atlas/lists.ts';
import type { Pack } from '../atlas/pack.ts';
import { entryOfRow } from '../atlas/read-lists.ts';
import { headOf } from '../changes/journal.ts';
import type { Reader } from '../driver/driver.ts';
import { isSum } from '../packs/content.ts';
import { readSomeNumbers } from '../packs/ground.ts';
import { type Held, headOfRow, readHeldParts } from '../packs/held.ts';
import * as t from '../schema.ts';
import { blankPack } from './edited-packs.ts';
import { readEntry } from './entries.ts';
import { type Ground, groundOver } from './ground.ts';
import type { Edit, HeadId } from './seen.ts';

/**
 * The ground of an edit that says something else of one part of a pack, in the slot it had, made of the atlas as it stands: that part and what it speaks of, and nothing
 * else. Whatever else packs say was checked when they were loaded, and rests on no more of a part than its id and slot. Null where the edits are any others, or the shop's
 * own pack has the part, whose text and leaning rest on all it says.
 */
export const readNarrowGround = async (reader: Reader, edits: readonly Edit[], head: HeadId): Promise<Ground | null> => {
  const [edit] = edits;
  if (edits.length !== 1 || edit === undefined || !('put' in edit) || edit.list !== 'parts') return null;
  const read = readEntry(0, edit.list, edit.put);
  if ('faults' in read) return null;
  const put = read.entry as Part;
  const now = await headOf(reader);
  if (now.id !== head) return null;
  const held = await partAlone(reader, put.id);
  if (held === null || held.row.own || !isSum(held.row.content) || held.part.slot !== put.slot) return null;
  const { row, rows, part } = held;
  const around = await aroundOf(reader, [part, put]);
  const numbering = await readSomeNumbers(
    reader,
    around.features.map(({ id }) => id),
    [put.id, ...around.parts.map(({ id }) => id)],
  );
  const blank = (each: (typeof rows)[number]): Held => ({
    ...{ pack: blankPack(headOfRow(each)), places: new Map(), signature: each.signature, words: new Map() },
  });
  const packs = new Map(rows.map((each) => [each.id, each.id === row.id ? held.held : blank(each)]));
  return groundOver(now, rows, packs, { around, numbering });
};

/** A part as the pack that has it holds it; null where none does. */
export const partAlone = async (reader: Reader, id: string) => {
  const [found] = await reader.all<{ pack: string }>('select pack from parts where id = ?', [id]);
  if (found === undefined) return null;
  const rows = await reader.orm.select().from(t.packs).orderBy(t.packs.id);
  const row = rows.find((each) => each.id === found.pack);
  if (row === undefined) return null;
  const held = await readHeldParts(reader, row, [id]);
  const [part] = held.pack.parts;
  return part === undefined ? null : { row, rows, held, part };
};

/** What parts speak of, as a pack beside theirs: slots and features, the sources and makers they name, and the parts they are after or made to, in any number of steps. */
const aroundOf = async (reader: Reader, parts: readonly Part[]): Promise<Pack> => {
  const [own] = parts as readonly [Part, ...Part[]];
  const named = await reader.all<{ list: 'sources' | 'makers'; id: string }>(
    `select 'sources' as list, id from sources where id in (select value from json_each(?))
     union all select 'makers', id from makers where id in (select value from json_each(?))`,
    [
      JSON.stringify(parts.flatMap(({ source, factSources }) => [source, ...Object.values(factSources ?? {})])),
      JSON.stringify(parts.map(({ maker }) => maker)),
    ],
  );
  /** No more is asked of them than that they are there. */
  const namedIn = <T extends Named>(list: 'sources' | 'makers') =>
    named.flatMap((row) => (row.list === list ? [{ id: row.id } as unknown as T] : []));
  const features = await reader.orm
    .select()
    .from(t.features)
    .where(
      or(
        eq(t.features.slot, own.slot),
        inArray(
          t.features.id,
          parts.flatMap(({ facts }) => Object.keys(facts) as FeatureId[]),
        ),
      ),
    );
  const chain = await reader.all<{ id: PartId; slot: SlotId; patternOf: PartId | null; supersedes: PartId | null }>(
    `with recursive chain(n) as (
       select n from parts where id in (select value from json_each(?))
       union select x.n from chain c join parts p on p.n = c.n join parts x on x.n in (p.pattern_of, p.supersedes))
     select p.id, p.slot, a.id as patternOf, b.id as supersedes from chain c join parts p on p.n = c.n
     left join parts a on a.n = p.pattern_of left join parts b on b.n = p.supersedes`,
    [JSON.stringify(parts.flatMap(({ patternOf, supersedes }) => [patternOf, supersedes].filter((id) => id !== undefined)))],
  );
  return {
    ...blankPack({ format: 'kinplate atlas pack', version: 1, id: '', title: '', edition: '', invented: false, note: '' }),
    slots: (await reader.orm.select().from(t.slots)).map((row) => entryOfRow(lists.slots, row)),
    features: features.map((row) => entryOfRow(lists.features, row)),
    sources: namedIn<Pack['sources'][number]>('sources'),
    makers: namedIn<Pack['makers'][number]>('makers'),
    parts: chain.flatMap(({ patternOf, supersedes, ...part }) =>
      part.id === own.id
        ? []
        : [
            {
              ...part,
              ...{ name: '', maker: null, numbers: [], facts: {}, source: own.source },
              ...(patternOf === null ? {} : { patternOf }),
              ...(supersedes === null ? {} : { supersedes }),
            },
          ],
    ),
  };
};
