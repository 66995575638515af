import { and, eq, inArray, isNull, or } from 'drizzle-orm';
import type { FeatureId, Sheet } from '../../reasoner/index.ts';
import { markKey } from '../../reasoner/plain/letters.ts';
import type { Reader, Statement } from '../driver/driver.ts';
import { build, insertRows, statementOf } from '../driver/statements.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';
import type { HereBefore, UnitNumber } from './case.ts';
import { numberColumns, numberText } from './case-number.ts';

type Row = Pick<typeof t.unitNumbers.$inferSelect, 'says' | 'text' | 'key'>;
type SaysOf = (feature: FeatureId) => string | undefined;

/** Of a part number alone, which every unit of its kind has, so many cases are named; the others are counted. */
const mostByPartNumber = 5;

/** What is stamped on the unit a sheet is of: its serial number, and what the plate says of serial and part number. What is only told is no stamp (O1). */
export const unitNumbersOf = (sheet: Sheet, saysOf: SaysOf): UnitNumber[] => {
  const stamped = sheet.observations.flatMap(({ feature, value, sure }): UnitNumber[] => {
    const says = saysOf(feature);
    if (value.kind !== 'mark' || value.text === null || sure.kind !== 'seen') return [];
    return says === 'serial number' || says === 'part number' ? [{ says, text: value.text }] : [];
  });
  return [...(sheet.serial === undefined ? [] : [{ says: 'serial number', text: sheet.serial } as const]), ...stamped];
};

/** Says anew which numbers are stamped on the unit of a saved sheet. */
export const unitNumbersKept = (sheet: Sheet, saysOf: SaysOf): Statement[] => [
  statementOf(build.delete(t.unitNumbers).where(eq(t.unitNumbers.sheet, sheet.id))),
  ...insertRows(
    t.unitNumbers,
    unitNumbersOf(sheet, saysOf).map(({ says, text }, index) => ({ sheet: sheet.id, n: index + 1, says, text, key: markKey(text) })),
  ),
];

/** What a number is compared by (O4): case, spaces and signs do not count. */
export const keyOf = ({ key, text }: Pick<Row, 'key' | 'text'>): string => key ?? markKey(text);

/**
 * The other cases that have a number of this sheet's: the same serial number; or the same part number, where no two serial numbers tell the units apart. Newest case first,
 * those of the same serial number before the others.
 */
export const casesBefore = async ({ orm }: Pick<Reader, 'orm'>, sheet: Sheet): Promise<HereBefore> => {
  const saysOf = await saysIn({ orm }, sheet);
  const numbers = unitNumbersOf(sheet, saysOf);
  const keys = [...new Set(numbers.map(({ text }) => markKey(text)))].filter((key) => key !== '');
  if (keys.length === 0) return { same: [], more: 0 };
  const asked = { sheet: t.unitNumbers.sheet, says: t.unitNumbers.says, text: t.unitNumbers.text, key: t.unitNumbers.key };
  const near = (
    await orm
      .select(asked)
      .from(t.unitNumbers)
      .where(or(inArray(t.unitNumbers.key, keys), isNull(t.unitNumbers.key)))
  ).filter((row) => row.sheet !== sheet.id && keys.includes(keyOf(row)));
  const sheets = [...new Set(near.map((row) => row.sheet))];
  const all = groupBy(
    await inParts(sheets, (some) => orm.select(asked).from(t.unitNumbers).where(inArray(t.unitNumbers.sheet, some))),
    (row) => row.sheet,
  );
  const heads = await inParts(sheets, (some) =>
    orm
      .select({ sheet: t.cases.sheet, ...numberColumns, openedOn: t.cases.openedOn, title: t.sheets.title })
      .from(t.cases)
      .innerJoin(t.sheets, and(eq(t.sheets.id, t.cases.sheet), eq(t.sheets.origin, 'own')))
      .where(inArray(t.cases.sheet, some)),
  );
  const here = keysBy(numbers.map(({ says, text }) => ({ says, text, key: null })));
  const found = heads
    .map(({ letter, year, number, ...head }) => {
      const there = keysBy(all.get(head.sheet) ?? []);
      const serial = shared(here['serial number'], there['serial number']);
      const part = shared(here['part number'], there['part number']);
      const apart = here['serial number'].size > 0 && there['serial number'].size > 0 && serial === null;
      const by: UnitNumber | null =
        serial !== null ? { says: 'serial number', text: serial } : part !== null && !apart ? { says: 'part number', text: part } : null;
      return { year, place: number, one: by === null ? null : { ...head, number: numberText({ letter, year, number }), by } };
    })
    .sort((a, b) => b.year - a.year || b.place - a.place)
    .flatMap(({ one }) => (one === null ? [] : [one]));
  const bySerial = found.filter(({ by }) => by.says === 'serial number');
  const byPart = found.filter(({ by }) => by.says === 'part number');
  return { same: [...bySerial, ...byPart.slice(0, mostByPartNumber)], more: Math.max(0, byPart.length - mostByPartNumber) };
};

/** Which features of a sheet read a number off the unit. */
const saysIn = async ({ orm }: Pick<Reader, 'orm'>, sheet: Sheet): Promise<SaysOf> => {
  const features = [...new Set(sheet.observations.map(({ feature }) => feature))];
  const rows = await inParts(features, (some) =>
    orm.select({ id: t.features.id, says: t.features.says }).from(t.features).where(inArray(t.features.id, some)),
  );
  const says = new Map(rows.map((row) => [row.id, row.says ?? undefined]));
  return (feature) => says.get(feature);
};

/** Few enough for one statement's bindings. */
const inParts = async <Id, Found>(ids: readonly Id[], ask: (some: Id[]) => PromiseLike<Found[]>): Promise<Found[]> => {
  const found: Found[] = [];
  for (let start = 0; start < ids.length; start += 500) found.push(...(await ask(ids.slice(start, start + 500))));
  return found;
};

type Keys = ReadonlyMap<string, string>;

/** By what they are compared by, the text as it is stamped. */
const keysBy = (rows: readonly Row[]): Readonly<Record<UnitNumber['says'], Keys>> => {
  const of = (says: UnitNumber['says']): Keys =>
    new Map(rows.flatMap((row) => (row.says === says && keyOf(row) !== '' ? [[keyOf(row), row.text]] : [])));
  return { 'serial number': of('serial number'), 'part number': of('part number') };
};

/** The first that both have, as it is written of the other. */
const shared = (here: Keys, there: Keys): string | null => {
  for (const [key, text] of there) if (here.has(key)) return text;
  return null;
};
