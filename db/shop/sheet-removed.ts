import { eq } from 'drizzle-orm';
import type { SheetId } from '../../reasoner/index.ts';
import type { Batch, Reader } from '../driver/driver.ts';
import type { MadeAgainst } from '../driver/made-against.ts';
import { build, statementOf } from '../driver/statements.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { heldSheet, noSuchSheet, ownOf } from './kept-sheets.ts';
import { wholeCase } from './whole-case.ts';

/**
 * Removes an own sheet with its case; a sample it was copied from shows again. Throws `not-found`, `sheet-is-sample` for a sample, and `changed-since` where sheet or case
 * are not as they were when that was decided.
 * @param madeAgainst the version of the whole (`wholeCase`)
 */
export const sheetRemoved = async (reader: Reader, id: SheetId, madeAgainst: MadeAgainst): Promise<Batch> => {
  const held = await heldSheet(reader, id);
  if (held.sheet === null) throw new TroubleError(noSuchSheet(id));
  if (held.own === null) {
    const [sample] = await reader.orm.select({ pack: t.sheets.pack }).from(t.sheets).where(eq(t.sheets.id, id));
    throw new TroubleError(
      trouble(
        'sheet-is-sample',
        `sheet ${id}`,
        `The sheet "${id}" is a sample of the pack "${sample?.pack}" and stays with it. Only your own sheets can be removed.`,
      ),
    );
  }
  const statements = [statementOf(build.delete(t.sheets).where(ownOf(id)))];
  if (madeAgainst === undefined) return { guards: [], statements };
  const whole = await wholeCase(reader, id, held);
  if (whole.version === madeAgainst) return { guards: whole.stands, statements };
  throw new TroubleError(
    trouble(
      'changed-since',
      `sheet ${id}`,
      `The sheet "${id}", or what is kept with it, was changed elsewhere since it was looked at here, so it was not removed. Look at it again, then decide.`,
    ),
  );
};
