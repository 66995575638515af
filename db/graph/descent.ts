import { inArray } from 'drizzle-orm';
import type { FamilyId } from '../../reasoner/index.ts';
import type { DescentAnswer, NodeRef } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import { noSuchNode, refsOf } from './node-refs.ts';

type Line = DescentAnswer['ancestors'][number];

/** Ancestors and descendants of a family by descent and succession, nearest first. Throws `not-found`. */
export const descentOf = async (reader: Reader, family: FamilyId): Promise<DescentAnswer> => {
  // Families are few beside parts; their lines are walked in memory.
  const edges = await reader.orm
    .select()
    .from(t.familyEdges)
    .where(inArray(t.familyEdges.kind, ['descends from', 'succeeds']))
    .orderBy(t.familyEdges.from, t.familyEdges.kind, t.familyEdges.position, t.familyEdges.to);
  const names = await refsOf(reader, 'family', [family, ...edges.flatMap(({ from, to }) => [from, to])]);
  if (!names.has(family)) return noSuchNode('family', family);
  const ref = (id: FamilyId): NodeRef => names.get(id) ?? noSuchNode('family', id);

  const walk = (near: 'from' | 'to', far: 'from' | 'to'): Line[] => {
    const seen = new Set<FamilyId>([family]);
    const lines: Line[] = [];
    for (let frontier: readonly FamilyId[] = [family]; frontier.length > 0; ) {
      const next: FamilyId[] = [];
      for (const via of frontier) {
        for (const edge of edges) {
          if (edge[near] !== via || seen.has(edge[far])) continue;
          seen.add(edge[far]);
          next.push(edge[far]);
          lines.push({ family: ref(edge[far]), via: ref(via), how: edge.kind as Line['how'] });
        }
      }
      frontier = next;
    }
    return lines;
  };
  return { ancestors: walk('from', 'to'), descendants: walk('to', 'from') };
};
