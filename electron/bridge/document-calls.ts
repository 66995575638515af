import { z } from 'zod';
import type { DocumentAbout, FileId, ShopDocument } from '../../db/answers.ts';
import type { PartId, SourceId } from '../../reasoner/index.ts';
import { call, id } from './call.ts';
import { plainLine, whoWrites } from './settings-calls.ts';

const about = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('source'), id: id<SourceId>() }),
  z.strictObject({ kind: z.literal('part'), id: id<PartId>() }),
]) satisfies z.ZodType<DocumentAbout>;
const file = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .transform((of) => of as FileId);

/** Papers the shop keeps beside a source or a part. What changes them gives all of that one's. */
export const documentCalls = {
  'documents.of': call(z.strictObject({ about: z.array(about).min(1).max(200) })).returns<readonly ShopDocument[]>(),
  /** Base64 of at most 10 MiB: a PDF, a picture, or plain text. */
  'documents.add': call(
    z.strictObject({
      about,
      name: z.string().min(1).max(300),
      title: plainLine(300),
      data: z
        .string()
        .min(1)
        .max(14_200_000)
        .regex(/^[A-Za-z0-9+/]*={0,2}$/),
      who: whoWrites,
    }),
  ).returns<readonly ShopDocument[]>(),
  'documents.remove': call(z.strictObject({ about, file })).returns<readonly ShopDocument[]>(),
  'documents.read': call(z.strictObject({ file })).returns<{ readonly type: string; readonly data: string }>(),
} as const;
