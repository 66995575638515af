import { desc, eq } from 'drizzle-orm';
import type { SheetId } from '../../reasoner/index.ts';
import type { OpenedSheet } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { versionOf } from '../driver/version.ts';
import * as t from '../schema.ts';
import { TroubleError } from '../trouble.ts';
import { numberOfCase } from './case-number.ts';
import { heldSheet, noSuchSheet, ownOf } from './kept-sheets.ts';
import { wholeCase } from './whole-case.ts';

/** The own sheet of this id, or the sample, with its versions and who saved it when. Throws `not-found`. */
export const openedSheet = async (reader: Reader, id: SheetId): Promise<OpenedSheet> => {
  const held = await heldSheet(reader, id);
  if (held.sheet === null) throw new TroubleError(noSuchSheet(id));
  const version = versionOf(held.sheet);
  if (held.own === null) return { sheet: held.sheet, version, whole: null, saved: null };
  const { orm } = reader;
  const [row] = await orm.select({ at: t.sheets.savedAt }).from(t.sheets).where(ownOf(id));
  const [entry] = await orm
    .select({ at: t.caseEntries.at, who: t.caseEntries.who })
    .from(t.caseEntries)
    .where(eq(t.caseEntries.sheet, id))
    .orderBy(desc(t.caseEntries.n))
    .limit(1);
  return {
    sheet: held.sheet,
    version,
    whole: (await wholeCase(reader, id, held)).version,
    saved: { at: entry?.at ?? row?.at ?? '', who: entry?.who ?? '', number: await numberOfCase(reader, id) },
  };
};
