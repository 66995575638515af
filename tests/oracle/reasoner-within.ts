/** What the oracles need of the reasoner beyond its public door. */

export * from '../../reasoner/index.ts';
export { housingSlots } from '../../reasoner/names/compile-names.ts';
export { rankOf } from '../../reasoner/names/ladder.ts';
export { type NameRule, union } from '../../reasoner/names/name-rule.ts';
export { agrees } from '../../reasoner/unit/agree.ts';
