import type { Feature } from '../../../reasoner/index.ts';
import type { PartDraft, Plain } from './draft.ts';

/**
 * A maker's slips, found while the pack is made: a fact of a feature its slot does not have, a fact of another kind
 * than its feature, or a dimension of a mating face left out without saying "not known". Throws on the first.
 */
export const checkParts = (parts: readonly PartDraft[], features: readonly Plain<Feature>[]): void => {
  const known = new Map(features.map((feature) => [feature.id, feature]));
  for (const part of parts) {
    for (const [id, fact] of Object.entries(part.facts)) {
      const feature = known.get(id);
      if (feature === undefined || feature.slot !== part.slot) throw new Error(`${part.id}: ${id} is no feature of ${part.slot}`);
      const kind = fact.kind === 'coded measure' ? 'measure' : fact.kind;
      if (kind !== 'not known' && kind !== feature.kind) throw new Error(`${part.id}: ${id} is a ${feature.kind}, found a ${kind}`);
      if (fact.kind === 'choice' && !fact.anyOf.every((option) => feature.options?.some((each) => each.id === option))) {
        throw new Error(`${part.id}: ${id} has no option ${fact.anyOf.join(', ')}`);
      }
    }
    for (const feature of features) {
      if (feature.slot === part.slot && feature.port !== undefined && !(feature.id in part.facts)) {
        throw new Error(`${part.id}: ${feature.id} is a dimension of a mating face and is neither given nor "not known"`);
      }
    }
  }
};
