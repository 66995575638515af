import type { BestShown, Fact, FeatureId, PartFacts } from '../../reasoner/index.ts';

/** The part that shows a feature best: as the term wants it, then whatever is known of it; null where no part says anything of it. */
export function bestPart(parts: readonly PartFacts[], feature: FeatureId, best: BestShown | undefined): PartFacts | null {
  const score = ({ facts }: PartFacts): number => {
    const fact = facts[feature];
    if (fact === undefined || fact.kind === 'not known') return -1;
    const known = Object.values(facts).filter((one) => one.kind !== 'not known').length / 1000;
    return (best === undefined ? 1 : wants(fact, best)) + known;
  };
  let found: { readonly part: PartFacts; readonly score: number } | null = null;
  for (const part of parts) {
    const at = score(part);
    if (at > (found?.score ?? -1)) found = { part, score: at };
  }
  return found?.part ?? null;
}

const wants = (fact: Fact, best: BestShown): number => {
  if ('most' in best) return fact.kind === 'measure' ? 1 + fact.nominal : fact.kind === 'count' ? 1 + fact.to : 1;
  if ('present' in best) return fact.kind === 'presence' && fact.present ? 100 : 1;
  return fact.kind === 'choice' && fact.anyOf.some((option) => option.includes(best.option)) ? 100 : 1;
};
