import type { FamilyId } from '../../reasoner/index.ts';
import type { NodeRef, RelatedAnswer } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { type NodeKind, noSuchNode, refsOf } from './node-refs.ts';

/**
 * Ways one family touches another, each a query that leads from a set of families to their neighbours. The closer the
 * tie, the earlier it stands; a chain uses the earliest that gives it no more links.
 */
interface Tie {
  /** 0: lines, patterns and shared parts. 1: parts that may be replaced freely. 2: the maker's name alone. */
  readonly round: 0 | 1 | 2;
  /**
   * Rows of from_family, to_family and `via`: ids of what lies between, of the kinds `through`, with a space between them (ids have none);
   * one row for each two families, the first of what lies between by id.
   */
  readonly sql: string;
  readonly through: readonly NodeKind[];
  /** One verb for every step of the link: from the family, over what lies between, to the other family. */
  readonly how: readonly string[];
}

const given = 'given(family) as (select value from json_each(?))';
const line = (kind: string, forth: string, back: string): Tie[] => [
  {
    round: 0,
    sql: `with ${given} select e.from_family, e.to_family, null as via from given g join family_edges e on e.from_family = g.family and e.kind = '${kind}'`,
    through: [],
    how: [forth],
  },
  {
    round: 0,
    sql: `with ${given} select e.to_family as from_family, e.from_family as to_family, null as via
      from given g join family_edges e on e.to_family = g.family and e.kind = '${kind}'`,
    through: [],
    how: [back],
  },
];
/** Parts of one group that both families list, by the roles they have. */
const sharedParts = (group: 'core' | 'housing', round: Tie['round']): Tie => ({
  round,
  sql: `with ${given} select a.family as from_family, b.family as to_family, min(p.id) as via
    from given g join models a on a.family = g.family join sits s on s.model = a.n join parts p on p.n = s.part join slots l on l.id = p.slot and l.part_group = '${group}'
    join sits o on o.part = s.part join models b on b.n = o.model and b.family <> a.family
    where ${round === 0 ? `s.role <> 'service' and o.role <> 'service'` : 'true'} group by 1, 2`,
  through: ['part'],
  how: ['is built with', 'sits also in'],
});
const patternParts = (from: 'pattern_of' | 'n', to: 'n' | 'pattern_of', how: string): Tie => ({
  round: 0,
  sql: `with ${given} select a.family as from_family, b.family as to_family, min(p.id || ' ' || q.id) as via
    from given g join models a on a.family = g.family join sits s on s.model = a.n join parts p on p.n = s.part join parts q on q.${to} = p.${from}
    join sits o on o.part = q.n join models b on b.n = o.model and b.family <> a.family group by 1, 2`,
  through: ['part', 'part'],
  how: ['is built with', how, 'sits in'],
});
const patternModels = (from: 'pattern_of' | 'n', to: 'n' | 'pattern_of', how: string): Tie => ({
  round: 0,
  sql: `with ${given} select a.family as from_family, b.family as to_family, min(a.id || ' ' || b.id) as via
    from given g join models a on a.family = g.family join models b on b.${to} = a.${from} and b.family <> a.family group by 1, 2`,
  through: ['model', 'model'],
  how: ['has the model', how, 'is a model of'],
});

const ties: readonly Tie[] = [
  ...line('succeeds', 'succeeds', 'is succeeded by'),
  ...line('descends from', 'descends from', 'is an ancestor of'),
  ...line('pattern of', 'is made to the pattern of', 'is the pattern for'),
  sharedParts('core', 0),
  sharedParts('housing', 0),
  patternModels('pattern_of', 'n', 'is made to the pattern of'),
  patternModels('n', 'pattern_of', 'is the pattern for'),
  patternParts('pattern_of', 'n', 'is made to the pattern of'),
  patternParts('n', 'pattern_of', 'is the pattern for'),
  sharedParts('core', 1),
  sharedParts('housing', 1),
  {
    round: 2,
    sql: `with ${given} select a.id as from_family, b.id as to_family, a.maker as via
      from given g join families a on a.id = g.family join families b on b.maker = a.maker and b.id <> a.id`,
    through: ['maker'],
    how: ['is made by', 'also makes'],
  },
];

interface Link {
  readonly from: FamilyId;
  readonly to: FamilyId;
  readonly tie: Tie;
  readonly via: readonly string[];
}

/**
 * The shortest reason two families are related: a chain of as few families as can be, joined by lines of descent and succession,
 * patterns and shared parts; failing that also by parts that may be replaced freely; failing that by the same maker. Among equally
 * short chains, the closest ties. No steps for a family and itself; null when nothing joins them. Throws `not-found`.
 */
export const relationOf = async (reader: Reader, a: FamilyId, b: FamilyId): Promise<RelatedAnswer> => {
  const known = await refsOf(reader, 'family', [a, b]);
  for (const id of [a, b]) if (!known.has(id)) noSuchNode('family', id);
  if (a === b) return { steps: [] };
  for (const round of [0, 1, 2] as const) {
    const chain = await chainWithin(
      reader,
      a,
      b,
      ties.filter((tie) => tie.round <= round),
    );
    if (chain !== null) return { steps: await stepsOf(reader, chain) };
  }
  return { steps: null };
};

/** Breadth first over families, a whole frontier to a query. */
const chainWithin = async (reader: Reader, a: FamilyId, b: FamilyId, allowed: readonly Tie[]): Promise<Link[] | null> => {
  const reached = new Map<FamilyId, { readonly by: Link | null; readonly rank: number }>([[a, { by: null, rank: 0 }]]);
  for (let frontier: readonly FamilyId[] = [a]; frontier.length > 0; ) {
    const next = new Map<FamilyId, { readonly by: Link; readonly rank: number }>();
    for (const [closeness, tie] of allowed.entries()) {
      const rows = await reader.all<{ from_family: FamilyId; to_family: FamilyId; via: string | null }>(tie.sql, [
        JSON.stringify(frontier),
      ]);
      for (const { from_family: from, to_family: to, via } of rows) {
        if (reached.has(to)) continue;
        const rank = (reached.get(from)?.rank ?? 0) + closeness;
        const before = next.get(to);
        if (before !== undefined && before.rank <= rank) continue;
        next.set(to, { by: { from, to, tie, via: via?.split(' ') ?? [] }, rank });
      }
    }
    for (const [family, by] of next) reached.set(family, by);
    if (next.has(b)) return linksTo(b, reached);
    frontier = [...next.keys()];
  }
  return null;
};

const linksTo = (end: FamilyId, reached: ReadonlyMap<FamilyId, { readonly by: Link | null }>): Link[] => {
  const links: Link[] = [];
  for (let by = reached.get(end)?.by ?? null; by !== null; by = reached.get(by.from)?.by ?? null) links.unshift(by);
  return links;
};

const stepsOf = async (reader: Reader, links: readonly Link[]): Promise<NonNullable<RelatedAnswer['steps']>> => {
  const nodesOf = (link: Link): [NodeKind, string][] => [
    ['family', link.from],
    ...link.via.map((id, index): [NodeKind, string] => [link.tie.through[index] ?? 'part', id]),
    ['family', link.to],
  ];
  const names = new Map<string, NodeRef>();
  for (const kind of ['family', 'model', 'part', 'maker'] as const) {
    const ids = links.flatMap(nodesOf).filter(([of]) => of === kind);
    for (const [id, ref] of await refsOf(
      reader,
      kind,
      ids.map(([, id]) => id),
    ))
      names.set(`${kind} ${id}`, ref);
  }
  const ref = ([kind, id]: [NodeKind, string]): NodeRef => names.get(`${kind} ${id}`) ?? noSuchNode(kind, id);
  return links.flatMap((link) => {
    const nodes = nodesOf(link);
    return link.tie.how.map((how, index) => {
      const [from, to] = [nodes[index], nodes[index + 1]];
      if (from === undefined || to === undefined) throw new Error(`the tie "${link.tie.how.join(', ')}" has more verbs than steps`);
      return { from: ref(from), to: ref(to), how };
    });
  });
};
