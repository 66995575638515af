import { type HousingOrigin, type Name, type Rung, rungs } from '../answer/verdict.ts';

/** Names of the three model rungs are one level: each says what model the unit is. */
export type Level = 'model' | Exclude<Rung, 'model with options' | 'model with service parts replaced'>;

export function levelOf(rung: Rung): Level {
  return rung === 'model with options' || rung === 'model with service parts replaced' ? 'model' : rung;
}

/** Best first. */
export const levels: readonly Level[] = [...new Set(rungs.map((rung) => levelOf(rung)))];

/**
 * Where a name stands on the ladder, lower is better. Within a rung the name that says more is better: fewer housings unidentified,
 * then fewer of another family than the core's, then fewer of its family and not its own; the whole unit's family before its core's.
 */
export const rankOf = (name: Name): number => {
  const count = (kind: HousingOrigin['kind']): number => name.housings.filter(({ origin }) => origin.kind === kind).length;
  const coreOnly = name.id.startsWith('family-core:') ? 1 : 0;
  return rungs.indexOf(name.rung) * 1000 + count('unidentified') * 100 + count('family') * 10 + count('own family') + coreOnly;
};
