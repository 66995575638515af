import { z } from 'zod';
import type { OpenedSheet, SavedSheet, SheetSummary } from '../../db/answers.ts';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { call, id, madeAgainst, nothing, version } from './call.ts';

export const sheetCalls = {
  'sheets.list': call(nothing).returns<readonly SheetSummary[]>(),
  'sheets.open': call(z.strictObject({ id: id<SheetId>() })).returns<OpenedSheet>(),
  /** Saves the sheet under its id, new or not. A sample is copied to the shop's own on its first save (same id). Its case gets an entry, and `who` is who saved it. `changed-since` where another version is there. */
  'sheets.save': call(z.strictObject({ sheet: sheetSchema, who: z.string().max(200).default(''), madeAgainst })).returns<SavedSheet>(),
  /** `madeAgainst`: the version of the whole, which opening it gives. */
  'sheets.remove': call(z.strictObject({ id: id<SheetId>(), madeAgainst: version })).returns<null>(),
  /** Reads the text of a sheet file (JSON) against the atlas; nothing is saved. */
  'sheets.read': call(z.strictObject({ text: z.string().max(limits.sheetLetters), file: z.string().max(300) })).returns<Sheet>(),
  /** The sheet as the text of a sheet file. */
  'sheets.write': call(z.strictObject({ sheet: sheetSchema })).returns<string>(),
} as const;
