import { z } from 'zod';
import type { FamilyId, Key, ModelId } from '../../reasoner/index.ts';
import { checkScope } from './apart-calls.ts';
import { id, longCall } from './call.ts';

export const keyCalls = {
  /** An identification key to the models or the families of the atlas, or of some of its families. `odds`: of a model to every one of another; 1 where it is not named. */
  'key.of': longCall(
    z.strictObject({
      level: z.enum(['models', 'families']),
      families: z.array(id<FamilyId>()).min(1).max(1000).readonly().exactOptional(),
      scope: checkScope,
      odds: z.record(id<ModelId>(), z.number().positive().max(1e6)).exactOptional(),
    }),
  ).returns<Key>(),
} as const;
