import type { Fact, FeatureId, SourceId } from '../../reasoner/index.ts';
import { type BareFact, FactPool } from './fact-pool.ts';
import type { Gathered, Ids, Values } from './list.ts';
import { Records } from './records.ts';

/** What is known of each part, out of the columns of `facts`: features in their order, facts that say the same as one object. */
export const gatherFacts = ({ features }: Ids): Gathered => {
  const pool = new FactPool();
  const records = new Records<FeatureId, Fact>();
  const said = new Map<unknown, Values>();
  const sourceOf = new Map<string, SourceId>();
  /** What is said of the part that is being read, by rank of the feature. */
  let part: unknown = null;
  const [ids, ranks, facts, sources]: [FeatureId[], number[], Fact[], (SourceId | null)[]] = [[], [], [], []];
  let [many, anySource] = [0, false];

  const take = (id: FeatureId, rank: number, fact: Fact, source: SourceId | null): void => {
    let at = many;
    for (; at > 0 && (ranks[at - 1] as number) > rank; at -= 1) {
      ids[at] = ids[at - 1] as FeatureId;
      ranks[at] = ranks[at - 1] as number;
      facts[at] = facts[at - 1] as Fact;
      sources[at] = sources[at - 1] as SourceId | null;
    }
    ids[at] = id;
    ranks[at] = rank;
    facts[at] = fact;
    sources[at] = source;
    many += 1;
    anySource ||= source !== null;
  };
  const finish = (): void => {
    if (part !== null) {
      const whole: Values = { facts: records.of(ids, facts, many) };
      said.set(part, anySource ? { ...whole, factSources: factSourcesOf(ids, sources, many) } : whole);
    }
    [many, anySource] = [0, false];
  };
  const one = (source: SourceId): SourceId => {
    const known = sourceOf.get(source);
    if (known === undefined) sourceOf.set(source, source);
    return known ?? source;
  };

  return {
    take: ({ rows, of }) => {
      const [parts, feature, source] = [of('part'), of('feature'), of('source')];
      const [kind, nominal, lower, upper] = [of('kind'), of('nominal'), of('lower'), of('upper')];
      const [code, anyOf, blank, present] = [of('code'), of('any_of'), of('blank'), of('present')];
      for (let row = 0; row < rows; row += 1) {
        if (parts[row] !== part) {
          finish();
          part = parts[row];
        }
        const known = features.get(feature[row] as number);
        if (known === undefined) continue;
        const bare = {
          kind: kind[row],
          nominal: nominal[row],
          lower: lower[row],
          upper: upper[row],
          code: code[row],
          anyOf: anyOf[row],
          blank: blank[row],
          present: present[row],
        } as BareFact;
        const from = source[row] as SourceId | null;
        take(known.id, known.rank, pool.of(bare), from === null ? null : one(from));
      }
    },
    said: () => {
      finish();
      part = null;
      return said;
    },
  };
};

const factSourcesOf = (ids: readonly FeatureId[], sources: readonly (SourceId | null)[], many: number): Record<FeatureId, SourceId> => {
  const said: Record<FeatureId, SourceId> = {};
  for (let at = 0; at < many; at += 1) {
    const source = sources[at];
    if (source !== null && source !== undefined) said[ids[at] as FeatureId] = source;
  }
  return said;
};
