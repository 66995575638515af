import { agrees } from '../atlas/agree.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { OperationId } from '../atlas/operation.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { AsFound } from '../fits/work/left.ts';
import type { Observation } from '../sheet/sheet.ts';

/** How an observation agrees with one part (O2): as it is made (or not known), only as one of these operations could have left it, or not at all (`null`). */
export type Agreement = { readonly machined: readonly OperationId[] } | null;

/** @throws when the observation's kind is not the feature's: the door should have refused it */
export const agreementWith = (
  slot: CompiledSlot,
  part: number,
  feature: Feature,
  observation: Pick<Observation, 'value' | 'sure'>,
): Agreement => {
  const table = slot.foundOf(feature.id);
  const { made, left } = table.distinct[table.of[part] as number] as AsFound;
  if (agrees(feature, made, observation) !== 'fails') return { machined: [] };
  const machined = left.filter(({ fact }) => agrees(feature, fact, observation) === 'holds').map(({ operation }) => operation);
  return machined.length === 0 ? null : { machined: [...new Set(machined)] };
};
