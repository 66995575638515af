import type { FamilyId, GenerationId, MakerId, ModelId, PartId } from '../../reasoner/index.ts';
import type { NodeRef, RelatedAnswer } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import { type NodeKind, noSuchNode, refsOf } from './node-refs.ts';
import { relationOf } from './related.ts';

/** A node of the atlas by its kind and id. */
export type NodeKey =
  | { readonly kind: 'maker'; readonly id: MakerId }
  | { readonly kind: 'family'; readonly id: FamilyId }
  | { readonly kind: 'generation'; readonly id: GenerationId }
  | { readonly kind: 'model'; readonly id: ModelId }
  | { readonly kind: 'part'; readonly id: PartId };

/** One step between two kinds of node, as a query from given ids to their neighbours. The closer the tie, the earlier it stands. */
interface Tie {
  /** 0: lines, patterns, what names a model or is an option of it. 1: parts that may be replaced freely. 2: the maker's name alone. */
  readonly round: 0 | 1 | 2;
  readonly from: NodeKind;
  readonly to: NodeKind;
  /** Rows of `a` (a given id) and `b` (its neighbour's). */
  readonly sql: string;
  readonly how: string;
}

/** The same tie read both ways. `rows` selects a and b; the given ids narrow it on either. */
const bothWays = (round: Tie['round'], from: NodeKind, to: NodeKind, rows: string, forth: string, back: string): Tie[] => [
  { round, from, to, sql: `select a, b from (${rows}) where a in (select value from json_each(?))`, how: forth },
  { round, from: to, to: from, sql: `select b as a, a as b from (${rows}) where b in (select value from json_each(?))`, how: back },
];
const line = (kind: string, forth: string, back: string): Tie[] =>
  bothWays(0, 'family', 'family', `select from_family as a, to_family as b from family_edges where kind = '${kind}'`, forth, back);
const sits = (round: Tie['round'], roles: string, forth: string, back: string): Tie[] =>
  bothWays(
    round,
    'model',
    'part',
    `select m.id as a, p.id as b from sits s join models m on m.n = s.model join parts p on p.n = s.part where s.role ${roles}`,
    forth,
    back,
  );

const ties: readonly Tie[] = [
  ...line('succeeds', 'succeeds', 'is succeeded by'),
  ...bothWays(
    0,
    'generation',
    'generation',
    'select id as a, succeeds as b from generations where succeeds is not null',
    'succeeds',
    'is succeeded by',
  ),
  ...line('descends from', 'descends from', 'is an ancestor of'),
  ...bothWays(0, 'generation', 'family', 'select id as a, family as b from generations', 'is a generation of', 'has the generation'),
  ...bothWays(
    0,
    'model',
    'generation',
    'select id as a, generation as b from models where generation is not null',
    'is of the generation',
    'has the model',
  ),
  ...bothWays(0, 'model', 'family', 'select id as a, family as b from models', 'is a model of', 'has the model'),
  ...bothWays(
    0,
    'part',
    'part',
    'select p.id as a, q.id as b from parts p join parts q on q.n = p.supersedes',
    'took the place of',
    'was superseded by',
  ),
  ...sits(0, "<> 'service'", 'is built with', 'sits in'),
  ...line('pattern of', 'is made to the pattern of', 'is the pattern for'),
  ...bothWays(
    0,
    'model',
    'model',
    'select m.id as a, o.id as b from models m join models o on o.n = m.pattern_of',
    'is made to the pattern of',
    'is the pattern for',
  ),
  ...bothWays(
    0,
    'part',
    'part',
    'select p.id as a, q.id as b from parts p join parts q on q.n = p.pattern_of',
    'is made to the pattern of',
    'is the pattern for',
  ),
  ...sits(1, "= 'service'", 'may be serviced with', 'may replace a worn one in'),
  ...bothWays(2, 'family', 'maker', 'select id as a, maker as b from families where maker is not null', 'is made by', 'makes'),
  ...bothWays(2, 'part', 'maker', 'select id as a, maker as b from parts where maker is not null', 'bears the name of', 'puts its name on'),
];

interface Link {
  readonly from: NodeKey;
  readonly to: NodeKey;
  readonly how: string;
}

/**
 * The shortest reason two nodes are related: a chain of as few steps as can be, over lines of descent and succession, patterns,
 * and what models are built with; failing that also over parts that may be replaced freely; failing that over the maker's name.
 * Among equally short chains, the closest ties, then ids. Two families are answered by `relationOf`, whose links are whole families.
 * No steps for a node and itself; null when nothing joins them. Throws `not-found`.
 */
export const relationOfNodes = async (reader: Reader, a: NodeKey, b: NodeKey): Promise<RelatedAnswer> => {
  if (a.kind === 'family' && b.kind === 'family') return relationOf(reader, a.id, b.id);
  for (const { kind, id } of [a, b]) if (!(await refsOf(reader, kind, [id])).has(id)) noSuchNode(kind, id);
  if (textOf(a) === textOf(b)) return { steps: [] };
  for (const round of [0, 1, 2] as const) {
    const links = await chainWithin(reader, a, b, round);
    if (links !== null) return { steps: await stepsOf(reader, links) };
  }
  return { steps: null };
};

const textOf = ({ kind, id }: NodeKey): string => `${kind} ${id}`;

/** Breadth first, a whole frontier of one kind to a query. */
const chainWithin = async (reader: Reader, a: NodeKey, b: NodeKey, round: Tie['round']): Promise<Link[] | null> => {
  const reached = new Map<string, { readonly by: Link | null; readonly rank: number }>([[textOf(a), { by: null, rank: 0 }]]);
  for (let frontier: readonly NodeKey[] = [a]; frontier.length > 0; ) {
    const next = new Map<string, { readonly by: Link; readonly rank: number }>();
    const byKind = groupBy(frontier, ({ kind }) => kind);
    for (const [closeness, tie] of ties.entries()) {
      const given = tie.round <= round ? byKind.get(tie.from) : undefined;
      if (given === undefined) continue;
      const rows = await reader.all<{ a: string; b: string }>(`${tie.sql} order by a, b`, [JSON.stringify(given.map(({ id }) => id))]);
      for (const row of rows) {
        const from = { kind: tie.from, id: row.a } as NodeKey;
        const to = { kind: tie.to, id: row.b } as NodeKey;
        if (reached.has(textOf(to))) continue;
        const rank = (reached.get(textOf(from))?.rank ?? 0) + closeness;
        const before = next.get(textOf(to));
        if (before !== undefined && before.rank <= rank) continue;
        next.set(textOf(to), { by: { from, to, how: tie.how }, rank });
      }
    }
    for (const [node, by] of next) reached.set(node, by);
    if (next.has(textOf(b))) {
      const links: Link[] = [];
      for (let by = reached.get(textOf(b))?.by ?? null; by !== null; by = reached.get(textOf(by.from))?.by ?? null) links.unshift(by);
      return links;
    }
    frontier = [...next.values()].map(({ by }) => by.to);
  }
  return null;
};

const stepsOf = async (reader: Reader, links: readonly Link[]): Promise<NonNullable<RelatedAnswer['steps']>> => {
  const names = new Map<string, NodeRef>();
  for (const [kind, nodes] of groupBy(
    links.flatMap(({ from, to }) => [from, to]),
    (node) => node.kind,
  )) {
    for (const [id, ref] of await refsOf(
      reader,
      kind,
      nodes.map(({ id }) => id),
    ))
      names.set(`${kind} ${id}`, ref);
  }
  const ref = (node: NodeKey): NodeRef => names.get(textOf(node)) ?? noSuchNode(node.kind, node.id);
  return links.map(({ from, to, how }) => ({ from: ref(from), to: ref(to), how }));
};
