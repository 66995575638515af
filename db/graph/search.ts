import type { NodeRef, SearchHit } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { refOf } from './node-refs.ts';
import { compact } from './search-terms.ts';

interface Found {
  readonly node_kind: NodeRef['kind'];
  readonly node_id: string;
  readonly term: string;
}

/**
 * Names and part numbers, as one types: first those that are the text, then those that begin with it, then those
 * that have every word of it as the beginning of a word. Case, accents and separators (`OAR 204-1117`, `lm2041117`) make no
 * difference. Each node once, at most `limit` of them. Every step reads only as far along an index as it needs.
 */
export const searchAtlas = async (reader: Reader, text: string, limit: number): Promise<SearchHit[]> => {
  const whole = compact(text);
  if (whole === '') return [];
  const hits = new Map<string, Found>();
  const take = (rows: readonly Found[]): boolean => {
    for (const row of rows) {
      const key = `${row.node_kind} ${row.node_id}`;
      if (hits.size < limit && !hits.has(key)) hits.set(key, row);
    }
    return hits.size >= limit;
  };
  // A node may match under several terms, so a few more rows are read than nodes are wanted.
  const rows = limit * 3;
  const enough =
    take(
      await reader.all<Found>('select node_kind, node_id, term from search_terms where compact = ? order by n limit ?', [whole, rows]),
    ) ||
    take(
      await reader.all<Found>(
        'select node_kind, node_id, term from search_terms where compact > ? and compact < ? order by compact, n limit ?',
        [whole, `${whole}\u{10ffff}`, rows],
      ),
    );
  const words = text.normalize('NFKC').match(/[\p{L}\p{N}\p{M}]+/gu) ?? [];
  if (!enough && words.length > 0) {
    take(
      await reader.all<Found>(
        `select s.node_kind, s.node_id, s.term from search_words w join search_terms s on s.n = w.rowid where search_words match ? order by w.rowid limit ?`,
        [words.map((word) => `"${word}"*`).join(' '), rows],
      ),
    );
  }
  return await described(reader, [...hits.values()]);
};

/** The second line of a hit: what a person tells two of one name apart by. */
const described = async (reader: Reader, found: readonly Found[]): Promise<SearchHit[]> => {
  const keys = JSON.stringify(found.map(({ node_kind, node_id }) => [node_kind, node_id]));
  const rows = await reader.all<{
    kind: NodeRef['kind'];
    id: string;
    name: string;
    first: string | null;
    second: string | null;
    pack: string;
  }>(
    `with wanted(kind, id) as (select json_extract(value, '$[0]'), json_extract(value, '$[1]') from json_each(?))
     select w.kind, x.id, x.name, null as first, 'maker' as second, x.pack from wanted w join makers x on x.id = w.id where w.kind = 'maker'
     union all select w.kind, x.id, x.name, m.name, 'family', x.pack from wanted w join families x on x.id = w.id left join makers m on m.id = x.maker where w.kind = 'family'
     union all select w.kind, x.id, x.name, m.name, f.name || ', generation', x.pack from wanted w join generations x on x.id = w.id join families f on f.id = x.family
       left join makers m on m.id = f.maker where w.kind = 'generation'
     union all select w.kind, x.id, x.name, m.name, f.name || ', model', x.pack from wanted w join models x on x.id = w.id join families f on f.id = x.family
       left join makers m on m.id = f.maker where w.kind = 'model'
     union all select w.kind, x.id, x.name, m.name, s.name, x.pack from wanted w join parts x on x.id = w.id join slots s on s.id = x.slot
       left join makers m on m.id = x.maker where w.kind = 'part'`,
    [keys],
  );
  const invented = new Set((await reader.all<{ id: string }>('select id from packs where invented')).map(({ id }) => id));
  const byKey = new Map(rows.map((row) => [`${row.kind} ${row.id}`, row]));
  return found.flatMap(({ node_kind, node_id, term }) => {
    const row = byKey.get(`${node_kind} ${node_id}`);
    if (row === undefined) return [];
    const first = row.first ?? (row.kind === 'maker' ? null : 'no maker’s name');
    const detail = [first, row.second].filter((word) => word !== null).join(' · ');
    return [{ node: refOf(row.kind, row), detail, matched: term, invented: invented.has(row.pack) }];
  });
};
