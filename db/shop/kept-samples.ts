import { randomUUID } from 'node:crypto';
import { and, asc, eq, isNull } from 'drizzle-orm';
import type { PartId, Sample, SheetId, SlotId, SourceId } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import type { Guard, Reader } from '../driver/driver.ts';
import { build, insertRows, statementOf } from '../driver/statements.ts';
import { versionOf } from '../driver/version.ts';
import type { Plan } from '../driver/write-planned.ts';
import type { Version } from '../plain/version.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { type CaseNumber, numberColumns, numberText, readCaseNumber } from './case-number.ts';
import { heldSheet, noSuchSheet, ownStands } from './kept-sheets.ts';
import type { CaseOfPart, KeptSample, SampleId, SamplesKept } from './samples.ts';

/** What is to be kept: of a saved case, as it was read, the samples of one slot. */
export interface SamplesToKeep {
  readonly part: PartId;
  readonly slot: SlotId;
  readonly sheet: SheetId;
  /** Of the sheet they were read from. */
  readonly version: Version;
  readonly samples: readonly (Sample & { readonly how: string })[];
}

type Row = typeof t.samples.$inferSelect;

const keptOf = ({ outBy, at, ...row }: Row): KeptSample => ({ ...row, out: outBy === null ? null : { at, who: outBy } });

/** Of a part, those that were taken out among them, in the order they were kept. */
export const samplesOf = async ({ orm }: Reader, part: PartId): Promise<KeptSample[]> =>
  (await orm.select().from(t.samples).where(eq(t.samples.part, part)).orderBy(asc(t.samples.keptAt), asc(t.samples.id))).map(keptOf);

const standingOf = async ({ orm }: Reader, sheet: SheetId, slot: SlotId): Promise<Row[]> =>
  orm
    .select()
    .from(t.samples)
    .where(and(eq(t.samples.sheet, sheet), eq(t.samples.slot, slot), isNull(t.samples.outBy)))
    .orderBy(asc(t.samples.id));

/**
 * From now on the samples of this slot of this case are these, of this part: what was kept of it before and says otherwise is taken out, since one part in the hand is a
 * specimen of one part only. Throws `not-found` for a part or a case that is not there, `sample-unfit` where the part is of another slot or nothing is to be kept, and
 * `changed-since` where the case was saved since it was read.
 */
export const samplesKept = async (
  reader: Reader,
  { part, slot, sheet, version, samples }: SamplesToKeep,
  { at, who }: { readonly at: string; readonly who: string },
): Promise<Plan<SamplesKept>> => {
  const { orm } = reader;
  const [of] = await orm.select({ slot: t.parts.slot, name: t.parts.name }).from(t.parts).where(eq(t.parts.id, part));
  if (of === undefined) throw new TroubleError(trouble('not-found', 'part', `The atlas has no part “${part}”.`));
  if (of.slot !== slot)
    throw new TroubleError(
      trouble(
        'sample-unfit',
        'part',
        `“${of.name}” is no part of this place on the unit, so no measurements of it can be kept. Nothing was changed.`,
      ),
    );
  const held = await heldSheet(reader, sheet);
  const [head] = await orm.select(numberColumns).from(t.cases).where(eq(t.cases.sheet, sheet));
  if (held.sheet === null || held.own === null || head === undefined) throw new TroubleError(noSuchSheet(sheet));
  if (versionOf(held.sheet) !== version)
    throw new TroubleError(
      trouble(
        'changed-since',
        `sheet ${sheet}`,
        `Case ${numberText(head)} was saved elsewhere since it was opened here. Nothing was kept. Look at it again, then decide.`,
      ),
    );
  if (samples.length === 0)
    throw new TroubleError(
      trouble(
        'sample-unfit',
        `sheet ${sheet}`,
        'Nothing of this part was seen or measured: what is only told is no sample. Nothing was changed.',
      ),
    );
  const standing = await standingOf(reader, sheet, slot);
  const says = (row: Row, sample: Sample & { readonly how: string }) =>
    row.part === part &&
    row.entry === sample.entry &&
    row.feature === sample.feature &&
    row.u === sample.u &&
    row.how === sample.how &&
    sameValue(row.value, sample.value);
  const fresh = samples.filter((sample) => !standing.some((row) => says(row, sample)));
  const out = standing.filter((row) => !samples.some((sample) => says(row, sample)));
  const value = { fresh: fresh.length, same: samples.length - fresh.length, out: out.length };
  if (fresh.length === 0 && out.length === 0) return { batch: null, value };
  const rows = fresh.map((sample) => ({
    ...sample,
    id: randomUUID() as SampleId,
    part,
    slot,
    sheet,
    number: numberText(head),
    keptAt: at,
    who,
    outBy: null,
    at,
  }));
  return {
    batch: {
      guards: [ownStands(sheet, held.own), standAs(sheet, slot, standing)],
      statements: [...out.map(({ id }) => takenOut(id, at, who)), ...insertRows(t.samples, rows)],
    },
    value,
  };
};

/** That nobody kept or took out samples of this slot of the case since. */
const standAs = (sheet: SheetId, slot: SlotId, standing: readonly Row[]): Guard => ({
  sql: `select (select json_group_array(id) from (select id from samples where from_sheet = ? and slot = ? and out_by is null order by id)) = ?`,
  params: [sheet, slot, JSON.stringify(standing.map(({ id }) => id))],
  refusal: trouble(
    'changed-since',
    `sheet ${sheet}`,
    'Samples of this case were being kept elsewhere at the same time. Nothing was changed. Try again.',
  ),
});

const takenOut = (id: SampleId, at: string, who: string) =>
  statementOf(build.update(t.samples).set({ outBy: who, at }).where(eq(t.samples.id, id)));

/** Takes a sample out of what is counted; it stays to be read. Throws `not-found`. */
export const sampleOut = async (
  { orm }: Reader,
  id: SampleId,
  { at, who }: { readonly at: string; readonly who: string },
): Promise<Plan<null>> => {
  const refusal = trouble('not-found', `sample ${id}`, 'There is no such sample; it was taken out already. Nothing was changed.');
  const [row] = await orm
    .select()
    .from(t.samples)
    .where(and(eq(t.samples.id, id), isNull(t.samples.outBy)));
  if (row === undefined) throw new TroubleError(refusal);
  return {
    batch: {
      guards: [{ sql: 'select exists (select 1 from samples where id = ? and out_by is null)', params: [id], refusal }],
      statements: [takenOut(id, at, who)],
    },
    value: null,
  };
};

/**
 * The id of a case as a source of the atlas. Sources are shared between packs, and other shops have cases of the same number: so it tells the sheet too.
 */
export const caseSource = (number: string, sheet: SheetId): SourceId => `case-${number}-${versionOf(sheet).slice(0, 8)}` as SourceId;
const caseNumberIn = /^case-((?:[A-HJ-NP-Z]-)?\d{4}-\d{4,})-[0-9a-f]{8}$/;

/** Cases that say something of a part, the oldest first. */
export const casesOfPart = async (reader: Reader, part: PartId): Promise<CaseOfPart[]> => {
  const { orm } = reader;
  const [of] = await orm.select({ n: t.parts.n, slot: t.parts.slot, source: t.parts.source }).from(t.parts).where(eq(t.parts.id, part));
  const facts = of === undefined ? [] : await orm.selectDistinct({ source: t.facts.source }).from(t.facts).where(eq(t.facts.part, of.n));
  const cited = new Map(
    [of?.source, ...facts.map(({ source }) => source)].flatMap((source): [string, string][] => {
      const number = caseNumberIn.exec(source ?? '')?.[1];
      return number === undefined || source === null || source === undefined ? [] : [[number, source]];
    }),
  );
  const sampled = new Map((await samplesOf(reader, part)).filter(({ out }) => out === null).map(({ number, sheet }) => [number, sheet]));
  const found: CaseOfPart[] = [];
  const numbers = [...new Set([...cited.keys(), ...sampled.keys()])].map((number) => ({ number, of: readCaseNumber(number) }));
  const inTurn = (a: CaseNumber | null, b: CaseNumber | null): number =>
    (a?.year ?? 0) - (b?.year ?? 0) || (a?.number ?? 0) - (b?.number ?? 0);
  for (const { number, of: read } of numbers.sort((a, b) => inTurn(a.of, b.of) || (a.number < b.number ? -1 : 1))) {
    const [row] = await reader.all<{ sheet: SheetId; title: string; photos: number }>(
      `select c.sheet, s.title,
         (select count(*) from case_photos p where p.sheet = c.sheet and (p.about_slot = ? or exists (
            select 1 from json_each(s.body, '$.observations') o
            where o.value ->> '$.id' = p.about_observation and o.value ->> '$.slot' = ?))) as photos
       from cases c join sheets s on s.id = c.sheet and s.origin = 'own' where c.letter = ? and c.year = ? and c.number = ?`,
      [of?.slot ?? '', of?.slot ?? '', read?.letter ?? '', read?.year ?? 0, read?.number ?? 0],
    );
    // Not another case that has the number here.
    const same = row !== undefined && (sampled.get(number) === row.sheet || cited.get(number) === caseSource(number, row.sheet));
    found.push(same ? { number, ...row } : { number, sheet: null, title: '', photos: 0 });
  }
  return found;
};
