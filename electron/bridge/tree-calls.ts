import { z } from 'zod';
import type { RelatedAnswer, TreeAnswer, TreeParts } from '../../db/answers.ts';
import type { FamilyId, GenerationId, MakerId, ModelId, PartId } from '../../reasoner/index.ts';
import { call, id, nothing } from './call.ts';

const node = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('maker'), id: id<MakerId>() }),
  z.strictObject({ kind: z.literal('family'), id: id<FamilyId>() }),
  z.strictObject({ kind: z.literal('generation'), id: id<GenerationId>() }),
  z.strictObject({ kind: z.literal('model'), id: id<ModelId>() }),
  z.strictObject({ kind: z.literal('part'), id: id<PartId>() }),
]);

export const treeCalls = {
  /** All makers, families, generations and models with their years and lines, and which of them share parts. */
  'tree.atlas': call(nothing).returns<TreeAnswer>(),
  /** The parts of some models, slot by slot. */
  'tree.parts': call(z.strictObject({ models: z.array(id<ModelId>()).max(400) })).returns<readonly TreeParts[]>(),
  /** The shortest reason any two nodes are related. */
  'tree.related': call(z.strictObject({ a: node, b: node })).returns<RelatedAnswer>(),
} as const;
