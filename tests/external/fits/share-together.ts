import type { FitRule } from '../../../reasoner/atlas/rule.ts';
import { comparisonsOf } from '../../../reasoner/fits/comparisons.ts';
import { type FactOf, known } from '../../../reasoner/fits/known.ts';
import { limitsOf } from '../../../reasoner/fits/limits.ts';
import { type Condition, type Draws, type Statistics, simulate } from '../../../reasoner/fits/simulate.ts';

/**
 * The share of pairs for which every clearance of a rule lies within its limits at once. The points of a finding give each clearance alone;
 * together they are fewer, and where a dimension stands in two clearances the shares do not simply multiply. So this is simulated.
 * Null when a dimension is not known, or the rule compares nothing that is measured.
 */
export const shareTogether = (
  rule: FitRule,
  factOf: FactOf,
  draws: Draws,
): { readonly share: number; readonly statistics: Statistics } | null => {
  const conditions: Condition[] = [];
  for (const comparison of comparisonsOf(rule)) {
    if (comparison.kind !== 'difference') continue;
    const { first, second, per, asked } = comparison;
    const one = known(factOf, first, 'measure');
    const other = known(factOf, second, 'measure');
    if (one === null || other === null) return null;
    conditions.push({
      asked,
      terms: [
        { feature: first, limits: limitsOf(one), measured: one.kind === 'measured', times: 1 / per },
        { feature: second, limits: limitsOf(other), measured: other.kind === 'measured', times: -1 / per },
      ],
    });
  }
  return conditions.length === 0 ? null : simulate(conditions, draws);
};
