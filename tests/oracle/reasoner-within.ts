/** What the oracles need of the reasoner beyond its public door. */

export { agrees } from '../../reasoner/atlas/agree.ts';
export { type NameRule, union } from '../../reasoner/compile/name-rule.ts';
export { housingSlots } from '../../reasoner/compile/name-texts.ts';
export * from '../../reasoner/index.ts';
export { rankOf } from '../../reasoner/names/rank.ts';
