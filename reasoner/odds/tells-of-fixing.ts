import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { Observation } from '../sheet/sheet.ts';

/**
 * Whether an entry tells how a plate is held on since it was taken off (O5): a choice that no listed plate has as its maker fixed it, while some are known to have another. It is an observation of what was done
 * to the plate, and speaks of no listed plate and of no slip. What it has in common with the part it sits on is of their joint.
 */
export const tellsOfFixing = (
  atlas: CompiledAtlas,
  { data: slot, factsOf }: CompiledSlot,
  { feature: id, value }: Observation,
): boolean => {
  if (slot.group !== 'plate' || value.kind !== 'choice') return false;
  const feature = atlas.features.get(id);
  if (feature === undefined || feature.port !== undefined) return false;
  const known = factsOf(id).distinct.flatMap((fact) => (fact.kind === 'choice' ? [fact.anyOf] : []));
  return known.length > 0 && !known.some((anyOf) => anyOf.includes(value.option));
};
