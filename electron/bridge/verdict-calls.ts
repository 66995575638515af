import { z } from 'zod';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type { Answer, NameAnswer, NameId } from '../../reasoner/index.ts';
import { id, longCall } from './call.ts';

export const verdictCalls = {
  /** The verdict on a sheet as it stands in the window, saved or not. Conflicts and swaps are there for the claimed name; of any other name they are asked for by `verdict.explain`. */
  'verdict.of': longCall(z.strictObject({ sheet: sheetSchema })).returns<Answer>(),
  /** Conflicts and swap sets of any one name, whatever its rung: its conflicts up to a thousand, or `all` of them, which may take seconds. */
  'verdict.explain': longCall(
    z.strictObject({ sheet: sheetSchema, name: id<NameId>(), all: z.boolean().exactOptional() }),
  ).returns<NameAnswer>(),
} as const;
