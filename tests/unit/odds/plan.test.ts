import { describe, expect, it } from 'vitest';
import { type CheckPlan, planChecks, type Sheet, startingAssumptions } from '../../../reasoner/index.ts';
import { shortPlan } from '../../../reasoner/odds/plan-checks.ts';
import { atlasOfTable, seeing } from '../../external/odds/table-atlas.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const demoSheet = (id: string): Sheet => demoPack.sheets.find((sheet) => sheet.id.startsWith(id)) as Sheet;

/** A way through a plan: the checks on it, how likely it is, and where it ends. */
interface Way {
  readonly checks: readonly { readonly again: boolean }[];
  readonly chance: number;
  readonly because: Extract<CheckPlan, { kind: 'end' }>['because'];
}

const waysOf = (plan: CheckPlan): Way[] =>
  plan.kind === 'end'
    ? [{ checks: [], chance: 1, because: plan.because }]
    : plan.branches.flatMap(({ chance, after }) =>
        waysOf(after).map((way) => ({
          checks: [{ again: plan.check.again.length > 0 }, ...way.checks],
          chance: chance * way.chance,
          because: way.because,
        })),
      );

describe('a plan of checks', () => {
  it('[Q1] goes as many checks deep as it may and no deeper', () => {
    const lengths = [0, 1, 2].map((depth) => {
      const plan = planChecks(demo, demoSheet('s11'), startingAssumptions, { ...shortPlan, depth }) as CheckPlan;
      const ways = waysOf(plan);
      for (const { checks, because } of ways) if (because === 'far enough') expect(checks).toHaveLength(depth);
      return Math.max(...ways.map(({ checks }) => checks.length));
    });
    expect(lengths).toEqual([0, 1, 2]);
  });

  it('[Q1] follows no reading that is too unlikely from the start, however likely it is there', () => {
    for (const id of ['s09', 's15']) {
      const ways = waysOf(planChecks(demo, demoSheet(id)) as CheckPlan);
      expect(Math.max(...ways.map(({ checks }) => checks.length))).toBe(shortPlan.depth);
      for (const { chance } of ways) expect(chance).toBeGreaterThanOrEqual(shortPlan.atLeast);
    }
  });

  it('[Q1] reads entries again as often on one way as it may, where no other check is left', () => {
    const wheels = atlasOfTable({
      slots: ['wheel'],
      features: ['look', 'back'].map((id) => ({ id, slot: 'wheel', kind: 'choice', options: ['x', 'y'] })),
      parts: ['x', 'y'].map((id) => ({
        id,
        slot: 'wheel',
        facts: { look: { kind: 'choice', anyOf: [id] }, back: { kind: 'choice', anyOf: [id] } },
      })),
      models: ['x', 'y'].map((id) => ({ id, times: 1, lists: [id] })),
    });
    const torn = seeing(wheels, { look: { kind: 'choice', option: 'x' }, back: { kind: 'choice', option: 'y' } });
    const most = [0, 1, 2].map((again) => {
      const plan = planChecks(wheels, torn, { ...startingAssumptions, stranger: 0, slip: 0.2 }, { ...shortPlan, again }) as CheckPlan;
      return Math.max(...waysOf(plan).map(({ checks }) => checks.filter((check) => check.again).length));
    });
    expect(most).toEqual([0, 1, 2]);
  });

  it('[Q1] readings that leave the same names in the same order are one branch only where they end for the same reason', () => {
    const wheels = atlasOfTable({
      slots: ['wheel'],
      features: [{ id: 'look', slot: 'wheel', kind: 'choice', options: ['p', 'q', 'r'] }],
      parts: [
        { id: 'x', slot: 'wheel', facts: { look: { kind: 'choice', anyOf: ['p', 'q'] } } },
        { id: 'y', slot: 'wheel', facts: { look: { kind: 'choice', anyOf: ['q', 'r'] } } },
      ],
      models: ['x', 'y'].map((id) => ({ id, times: 1, lists: [id] })),
    });
    const certain = { stranger: 0, swapped: 0, unlisted: 0, misfit: 0, slip: 0.1 };
    const plan = planChecks(wheels, seeing(wheels, {}), certain, { ...shortPlan, depth: 1, settled: 0.5 });
    if (plan?.kind !== 'check') throw new Error('no plan');
    // p is nearly always of x, r of y; q is of either, x first as the atlas has it.
    expect(plan.branches.map(({ after }) => after.kind === 'end' && after.because).sort()).toEqual(['far enough', 'settled', 'settled']);
  });
});
