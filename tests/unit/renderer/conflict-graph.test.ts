import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asId, type Conflict, type Member, type NameId, type Sheet, type SheetId } from '../../../reasoner/index.ts';
import { type ConflictGraph, conflictGraph, graphColumns, nodeOf, nodesOf } from '../../../renderer/graph/conflictGraph.ts';
import { litConflicts, litNodes } from '../../../renderer/graph/picked.ts';
import { smallWords as words } from './small-vocabulary.ts';

const slots = words.slots.map((slot) => slot.id);
const joints = words.vocabulary.joints.map((joint) => joint.id);
const sheet: Sheet = {
  id: asId<SheetId>('s'),
  title: '',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  absent: [],
  chosen: {},
  observations: slots.flatMap((slot) =>
    [1, 2, 3].map((n) => ({
      id: asId(`${slot}-${n}`),
      slot,
      feature: asId(`${slot}.count`),
      value: { kind: 'count' as const, from: n, to: n },
      sure: { kind: 'seen' as const },
    })),
  ),
};

const member: fc.Arbitrary<Member> = fc.oneof(
  fc.constantFrom(...sheet.observations).map((one): Member => ({ kind: 'observation', observation: one.id })),
  fc.constantFrom(...slots).map((slot): Member => ({ kind: 'absent', slot })),
  fc.constantFrom(...joints).map((joint): Member => ({ kind: 'joint', joint })),
  fc.constantFrom(...slots).map((slot): Member => ({ kind: 'rule', name: asId<NameId>('n'), slot })),
);
const conflict: fc.Arbitrary<Conflict> = fc.uniqueArray(member, { minLength: 1, maxLength: 8, selector: nodeOf }).map((members) => ({
  members,
  slots: [...new Set(members.flatMap((one) => (one.kind === 'absent' || one.kind === 'rule' ? [one.slot] : [])))],
  minutes: 1,
  stage: null,
  sentence: members.map(nodeOf).join(),
}));
const conflicts = fc.array(conflict, { maxLength: 6 });
const check = (holds: (found: readonly Conflict[], graph: ConflictGraph) => void) =>
  fc.assert(
    fc.property(conflicts, (found) => holds(found, conflictGraph(words, sheet, found, null))),
    { seed: 20261125, numRuns: 300 },
  );

describe('the conflict graph', () => {
  test('[K2] every member of every conflict is drawn once, beside all the slots, and nothing else is', () => {
    check((found, graph) => {
      const drawn = graph.nodes.map((node) => node.id);
      expect(new Set(drawn).size).toBe(drawn.length);
      const expected = new Set([...slots.map((slot) => `slot:${slot}`), ...found.flatMap((one) => one.members.map(nodeOf))]);
      expect(new Set(drawn)).toEqual(expected);
    });
  });

  test('[K2] slots stand from the compressor side to the turbine side, whatever the conflicts', () => {
    check((_, graph) => {
      const order = graph.nodes.filter((node) => node.kind === 'slot').toSorted((a, b) => a.y - b.y);
      expect(order.map((node) => node.slots[0])).toEqual(slots);
    });
  });

  test('[K2] no two nodes lie on each other, and none lies outside the drawing', () => {
    check((_, graph) => {
      for (const [index, a] of graph.nodes.entries()) {
        expect(a.x - a.width / 2).toBeGreaterThanOrEqual(0);
        expect(a.x + a.width / 2).toBeLessThanOrEqual(graph.width);
        expect(a.y - a.height / 2).toBeGreaterThanOrEqual(0);
        expect(a.y + a.height / 2).toBeLessThanOrEqual(graph.height);
        for (const b of graph.nodes.slice(index + 1)) {
          const apart = Math.abs(a.x - b.x) >= (a.width + b.width) / 2 || Math.abs(a.y - b.y) >= (a.height + b.height) / 2;
          expect(apart, `${a.id} lies on ${b.id}`).toBe(true);
        }
      }
      expect(graph.width).toBe(graphColumns.width);
    });
  });

  test('[K2] a joint is tied to the two slots it holds together, everything else to its own slot', () => {
    check((_, graph) => {
      for (const node of graph.nodes.filter((one) => one.kind !== 'slot')) {
        const ends = graph.edges.filter((edge) => edge.source === node.id).map((edge) => edge.target);
        expect(ends).toEqual(node.slots.map((slot) => `slot:${slot}`));
        expect(ends).toHaveLength(node.kind === 'joint' ? 2 : 1);
      }
    });
  });

  test('[K2] a conflict picked in the list lights its members, and any of those picked in the graph lights the conflict again', () => {
    check((found) => {
      found.forEach((one, index) => {
        const lit = litNodes({ kind: 'conflict', index }, found);
        expect(lit).toEqual(nodesOf(one));
        expect(litConflicts({ kind: 'conflict', index }, found)).toEqual(new Set([index]));
        for (const each of one.members) {
          const back = litConflicts({ kind: 'node', id: nodeOf(each) }, found);
          expect(back.has(index)).toBe(true);
          for (const other of back) expect(nodesOf(found[other] ?? one).has(nodeOf(each))).toBe(true);
        }
      });
    });
  });
});
