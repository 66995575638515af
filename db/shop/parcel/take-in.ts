import { and, eq } from 'drizzle-orm';
import type { CaseVerdict, SheetId } from '../../../reasoner/index.ts';
import type { Batch, Reader, Statement } from '../../driver/driver.ts';
import { build, insertRows, statementOf } from '../../driver/statements.ts';
import { atlasStands } from '../../graph/atlas-guard.ts';
import * as t from '../../schema.ts';
import type { Parcel } from '../../sheets/parcel-schema.ts';
import { checkSheet } from '../../sheets/read-sheet.ts';
import { TroubleError, trouble } from '../../trouble.ts';
import type { CaseSummary, ParcelSeen } from '../case.ts';
import { dayOf } from '../case-number.ts';
import { columnsOfAbout, photoKept } from '../case-photos.ts';
import { columnsOfWord } from '../case-words.ts';
import { givenElsewhere } from '../given-elsewhere.ts';
import { entryRow, numberTaken } from '../kept-cases.ts';
import { knownTo, sheetSaved } from '../kept-sheets.ts';
import { listCases } from '../list-cases.ts';
import { unitNumbersKept } from '../unit-numbers.ts';
import type { ReadParcel } from './read-parcel.ts';

/** What a case taken out of a file is beside one that is here under the same sheet. Throws `sheet-unknown` and `sheet-invalid` for what the atlas has not or has otherwise. */
export const parcelSeen = async (reader: Reader, { parcel }: ReadParcel): Promise<ParcelSeen> => {
  const checked = checkSheet(parcel.sheet, await knownTo(reader, parcel.sheet));
  if (!checked.ok) throw new TroubleError(checked.trouble);
  const { sheet, history, number, openedOn, photographs } = parcel;
  const last = history.at(-1);
  const verdict = last?.verdict.kind === 'verdict' ? last.verdict : null;
  return {
    sheet: sheet.id,
    number,
    openedOn,
    title: sheet.title,
    kind: sheet.kind,
    customer: parcel.details.at(-1)?.customer ?? '',
    claimed: sheet.claimed,
    status: verdict?.claim?.status ?? null,
    honest: verdict?.honest.map(({ text }) => text) ?? [],
    observations: sheet.observations.length,
    photos: photographs.length,
    entries: history.length,
    savedAt: last?.at ?? null,
    here: await caseOn(reader, sheet.id),
    elsewhere: await givenElsewhere(reader, number, sheet.id),
  };
};

const caseOn = async (reader: Reader, sheet: SheetId): Promise<CaseSummary | null> => (await listCases(reader, {}, sheet))[0] ?? null;

export interface TakenIn {
  /** The sheet's id here: its own, or another where a case is here under its own. */
  readonly sheet: SheetId;
  readonly who: string;
  readonly now: Date;
}

/**
 * A case out of a file, put in whole: under the next number of this shop, with the number it had as its origin, and with every time and name in it as they were. Its verdicts are
 * those that were said then; nothing is judged. Throws `case-is-here` where a case of that sheet is here, and as `parcelSeen` does.
 */
export const parcelTakenIn = async (reader: Reader, { parcel, pictures }: ReadParcel, { sheet: id, who, now }: TakenIn): Promise<Batch> => {
  const sheet = { ...parcel.sheet, id };
  const known = await knownTo(reader, sheet);
  const checked = checkSheet(sheet, known);
  if (!checked.ok) throw new TroubleError(checked.trouble);
  const refusal = trouble(
    'case-is-here',
    `sheet ${id}`,
    `A case of the sheet “${id}” is here already, and is not written over. Look at both; then take this one in as a case of its own, or leave it.`,
  );
  const [held] = await reader.orm
    .select({ id: t.sheets.id })
    .from(t.sheets)
    .where(and(eq(t.sheets.id, id), eq(t.sheets.origin, 'own')));
  if (held !== undefined) throw new TroubleError(refusal);
  const changed = trouble(
    'atlas-changed',
    `sheet ${id}`,
    'The atlas changed while the case was read, so it was not taken in. Take it in again.',
  );
  return {
    guards: [
      await atlasStands(reader, changed),
      { sql: `select not exists (select 1 from sheets where id = ? and origin = 'own')`, params: [id], refusal },
      { sql: 'select not exists (select 1 from cases where sheet = ?)', params: [id], refusal },
    ],
    statements: statementsOf(parcel, pictures, { sheet: id, who, now }, [
      sheetSaved(sheet, now.toISOString()).statement,
      ...unitNumbersKept(sheet, (feature) => known.feature(feature)?.says),
    ]),
  };
};

/** A picture at a time, so that the whole case need not stand in memory twice. */
function* statementsOf(
  { openedOn, number, origins, history, details, words, left, photographs, sheet: written }: Parcel,
  pictures: ReadParcel['pictures'],
  { sheet, who, now }: TakenIn,
  [saved, ...numbers]: readonly Statement[],
): Generator<Statement> {
  const at = now.toISOString();
  if (saved !== undefined) yield saved;
  // First, so that they are passed over: it keeps the numbers it had beside the one it gets.
  yield* insertRows(
    t.caseOrigins,
    [...origins, { number, at, who }].map((one, index) => ({ sheet, n: index + 1, ...one })),
  );
  yield* numberTaken(sheet, Number(dayOf(now).slice(0, 4)), openedOn);
  yield* insertRows(
    t.caseDetails,
    details.map((one, index) => ({ sheet, n: index + 1, ...one })),
  );
  yield* insertRows(
    t.caseEntries,
    history.map(({ at: saved, who: by, sheet: state, verdict }, index) =>
      entryRow({ ...state, id: sheet }, index + 1, { at: saved, who: by, verdict: verdict as CaseVerdict }),
    ),
  );
  yield* insertRows(
    t.caseWords,
    words.map(({ word, ...one }, index) => ({ sheet, n: index + 1, ...one, ...columnsOfWord(word) })),
  );
  yield* insertRows(
    t.casesLeft,
    left.map((one, index) => ({ sheet, n: index + 1, ...one })),
  );
  yield* numbers;
  for (const [index, picture] of pictures.entries()) {
    const photograph = photographs[index];
    if (photograph === undefined) throw new Error(`a picture of ${written.id} that nothing was said of`);
    const { sha256, addedAt, caption, about } = photograph;
    yield photoKept(sha256, picture);
    yield statementOf(
      build.insert(t.casePhotos).values({
        sheet,
        photo: sha256,
        addedAt,
        caption,
        ...columnsOfAbout(about),
      }),
    );
  }
}
