import { count, eq } from 'drizzle-orm';
import type { SheetId } from '../../reasoner/index.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';

/** Throws `not-found` for a sheet without a case. */
export const checkCase = async (reader: Reader, sheet: SheetId): Promise<void> => {
  const [found] = await reader.orm.select({ many: count() }).from(t.cases).where(eq(t.cases.sheet, sheet));
  if ((found?.many ?? 0) === 0) throw new TroubleError(noSuchCase(sheet));
};

export const noSuchCase = (sheet: SheetId) =>
  trouble('not-found', `sheet ${sheet}`, `The sheet "${sheet}" has no case: a sheet becomes one when the shop saves it.`);

export const busyCase = (sheet: SheetId) =>
  trouble(
    'changed-since',
    `sheet ${sheet}`,
    `The case of the sheet "${sheet}" was being written elsewhere at the same time. Nothing was changed. Try again.`,
  );
