import { z } from 'zod';
import type { Apart, FamilyId, ModelId, PartFacts, PartId, StageId } from '../../reasoner/index.ts';
import { id, longCall, reasonedCall } from './call.ts';

const subject = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('family'), id: id<FamilyId>() }),
  z.strictObject({ kind: z.literal('model'), id: id<ModelId>() }),
  z.strictObject({ kind: z.literal('part'), id: id<PartId>() }),
]);

/** Which checks may be made: the nameplate and letters or not, and how far the unit may be taken apart. */
export const checkScope = z.strictObject({
  plate: z.boolean().exactOptional(),
  letters: z.boolean().exactOptional(),
  stages: z.array(id<StageId>()).max(50).readonly().exactOptional(),
});

export const apartCalls = {
  /** How two to five families and models, or parts of one slot, are told apart. */
  'apart.of': longCall(z.strictObject({ subjects: z.array(subject).min(1).max(20), scope: checkScope })).returns<Apart>(),
  /** What is known of some parts, to draw them side by side. */
  'apart.parts': reasonedCall(z.strictObject({ parts: z.array(id<PartId>()).max(60) })).returns<readonly PartFacts[]>(),
} as const;
