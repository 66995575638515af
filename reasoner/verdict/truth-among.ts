import { agrees, compatible } from '../atlas/agree.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { AsFound } from '../fits/work/left.ts';
import type { FeatureId } from '../ids.ts';
import type { Observation } from '../sheet/sheet.ts';
import { every, some, type Truth } from '../truth.ts';
import { partsIn } from '../unit/groups.ts';
import type { Unit } from '../unit/unit.ts';

/**
 * Whether something said of a feature is so, as far as the unit tells (O1, N6): first by what was itself seen of the feature, else by
 * what remains in the slot. `alternatives` are readings of which any one makes it true. It holds when every candidate agrees as it is made, fails when
 * none can, machined or not, and is not known otherwise, always so when only an unlisted part remains.
 */
export const truthAmong = (unit: Unit, feature: FeatureId, alternatives: readonly Pick<Observation, 'value' | 'sure'>[]): Truth => {
  const slot = unit.slots.find(({ of }) => of.data.id === unit.atlas.features.get(feature)?.slot);
  if (!slot) return 'not known';
  const seen = slot.observations.filter((observation) => observation.feature === feature);
  if (seen.length > 0)
    return some(alternatives.map((each) => every(seen.map((observation) => (compatible(observation, each) ? 'holds' : 'fails')))));
  // A slot nothing has been seen to narrow tells of the atlas, not of the unit.
  if (slot.doubtful || slot.unlisted !== null || slot.live.length === slot.groups.length) return 'not known';
  const table = slot.of.foundOf(feature);
  const definition = unit.atlas.features.get(feature) as Feature;
  const entries = new Set(partsIn(slot).map((part) => table.of[part] as number));
  const truths = [...entries].map((entry): Truth => {
    const { made, left } = table.distinct[entry] as AsFound;
    const asMade = some(alternatives.map((each) => agrees(definition, made, each)));
    const machined = left.some(({ fact }) => alternatives.some((each) => agrees(definition, fact, each) === 'holds'));
    return asMade === 'fails' && machined ? 'not known' : asMade;
  });
  if (truths.every((truth) => truth === 'holds')) return 'holds';
  return truths.every((truth) => truth === 'fails') ? 'fails' : 'not known';
};
