import { z } from 'zod';
import type {
  DescentAnswer,
  FamilyPage,
  FitsAnswer,
  MakerPage,
  ModelPage,
  PartPage,
  RelatedAnswer,
  SearchHit,
  Vocabulary,
} from '../../db/answers.ts';
import type { FamilyId, MakerId, ModelId, PartId } from '../../reasoner/index.ts';
import { call, id, nothing, reasonedCall } from './call.ts';

export const atlasCalls = {
  'atlas.vocabulary': call(nothing).returns<Vocabulary>(),
  'atlas.search': call(z.strictObject({ text: z.string().max(200), limit: z.number().int().min(1).max(200) })).returns<
    readonly SearchHit[]
  >(),
  'atlas.maker': call(z.strictObject({ id: id<MakerId>() })).returns<MakerPage>(),
  'atlas.family': call(z.strictObject({ id: id<FamilyId>() })).returns<FamilyPage>(),
  'atlas.model': call(z.strictObject({ id: id<ModelId>() })).returns<ModelPage>(),
  'atlas.part': call(z.strictObject({ id: id<PartId>() })).returns<PartPage>(),
  'atlas.fits': reasonedCall(z.strictObject({ part: id<PartId>() })).returns<FitsAnswer>(),
  'atlas.descent': call(z.strictObject({ family: id<FamilyId>() })).returns<DescentAnswer>(),
  'atlas.related': call(z.strictObject({ a: id<FamilyId>(), b: id<FamilyId>() })).returns<RelatedAnswer>(),
} as const;
