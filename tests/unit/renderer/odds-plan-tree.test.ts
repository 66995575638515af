import { describe, expect, test } from 'vitest';
import { planChecks, type Sheet } from '../../../reasoner/index.ts';
import { depthOf, type PlanLine, parentOf, planTree, unfolded } from '../../../renderer/odds/planTree.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const sheet = demoPack.sheets.find(({ id }) => id === 's01-petrel-13-claim') as Sheet;
const plan = planChecks(demo, sheet);
if (plan === null) throw new Error('the sheet has no plan');
const tree = planTree(plan);
const all = unfolded(tree, new Set());

describe('the plan as a tree', () => {
  test('[Q1] every reading of the plan is one line, under the check it is a reading of', () => {
    const lines = (of: typeof plan): number => (of?.kind === 'check' ? of.branches.reduce((sum, { after }) => sum + lines(after), 1) : 1);
    expect(all.length).toBe(lines(plan));
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    for (const { id, reading } of all) expect(reading === null).toBe(parentOf(id) === null);
    expect(depthOf(tree)).toBeGreaterThan(1);
  });

  test('[Q1] a line folded away hides what follows it and nothing else', () => {
    const parent = all.find(({ id, lines }) => id !== tree.id && lines.length > 0) as PlanLine;
    const left = unfolded(tree, new Set([parent.id])).map(({ id }) => id);
    expect(left).toEqual(all.map(({ id }) => id).filter((id) => !id.startsWith(`${parent.id}.`)));
    expect(unfolded(tree, new Set([tree.id]))).toEqual([tree]);
  });
});
