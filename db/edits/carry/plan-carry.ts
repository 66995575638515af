import { entriesIn, type Pack } from '../../atlas/pack.ts';
import type { Guard, Reader, Statement } from '../../driver/driver.ts';
import { groupBy } from '../../plain/group-by.ts';
import type { CarriedRecord, CarriedSeen, Edit, EditedList, KeptSort, RowKey, RowSort, StaysSeen } from '../seen.ts';
import { recordStatements } from './carried-record.ts';
import { type KeptRow, type RowMoved, readRows, rowStatements } from './kept-rows.ts';
import { type KeptText, readTexts, textNaming, textWritten } from './written-texts.ts';

/** What of the shop's own goes with a change from one id to another. */
export interface PlannedCarry {
  readonly seen: readonly CarriedSeen[];
  readonly guards: readonly Guard[];
  /** @param change the number the change gets */
  statements(change: number): readonly Statement[];
}

export const nothingCarried: PlannedCarry = { seen: [], guards: [], statements: () => [] };

type Packs = ReadonlyMap<string, Pack>;

/** One entry takes over from another what the shop keeps of it. */
interface Succession {
  readonly list: EditedList;
  readonly from: string;
  readonly to: string;
}

interface Step extends Succession {
  /** Whether the other one stood before: then what it says by itself holds, and what cannot stand beside that stays where it is. */
  readonly stood: boolean;
  /** Of the rows of `from`, in order, those that go, with the key each had under `to` before, or null. */
  takes(rows: readonly Standing[]): ReadonlyMap<Standing, RowKey | null>;
  /** A text as it is afterwards. */
  writes(text: KeptText): string;
}

/** A row while steps are taken: where it stands, and by what key. */
interface Standing {
  readonly row: KeptRow;
  id: string;
  key: RowKey;
}

/**
 * What the shop keeps of entries that go in favour of others (`drop` with `into`) stands under those from then on.
 * @param before the packs as they stand; @param after as the edits leave them
 */
export const planCarry = (reader: Reader, edits: readonly Edit[], before: Packs, after: Packs): Promise<PlannedCarry> => {
  const given = edits.flatMap((edit): readonly Succession[] =>
    'drop' in edit && edit.into !== undefined ? [{ list: edit.list, from: edit.drop, to: edit.into }] : [],
  );
  const pairs = given
    .map((pair, at) => ({ pair, end: inTheEnd(pair, given.slice(at + 1)) }))
    .filter(({ end }) => has(after, end.list, end.to));
  const gone = new Set<string>();
  const steps = pairs.map(({ pair: { list, from, to } }): Step => {
    const stood = has(before, list, to) && !gone.has(`${list} ${to}`);
    gone.add(`${list} ${from}`);
    return {
      ...{ list, from, to, stood },
      // What stands under an id that only these edits give for a while is none of it.
      takes: (rows) => new Map(rows.filter(({ row }) => has(before, list, row.id)).map((row) => [row, null])),
      writes: (text) => textNaming(text, list, from, to),
    };
  });
  return planSteps(
    reader,
    steps.map((step) => [step]),
    pairs.map(({ end }) => end).filter(({ list, from }) => has(before, list, from)),
  );
};

/** Where an entry that takes over goes too, the one it goes in favour of. */
const inTheEnd = (pair: Succession, later: readonly Succession[]): Succession => {
  let { to } = pair;
  for (const next of later) if (next.list === pair.list && next.from === to) to = next.to;
  return { list: pair.list, from: pair.from, to };
};

/**
 * What a change carried goes back: the rows that went, with states of a line of stock that followed one; where the id they went to is gone, so does what was entered under it since.
 * @param records of the change
 */
export const planCarryBack = (reader: Reader, records: readonly CarriedRecord[], before: Packs, after: Packs): Promise<PlannedCarry> => {
  const steps = records.flatMap((record): readonly Step[] => {
    const { list, from: to, to: from } = record;
    if (!has(after, list, to)) return [];
    const gone = !has(after, list, from);
    const stood = has(before, list, to);
    return [{ list, from, to, stood, takes: (rows) => goingBack(rows, record, gone), writes: (text) => textBack(text, record, gone) }];
  });
  return planSteps(reader, [steps], steps);
};

const nameOf = (of: string, key: RowKey): string => JSON.stringify([of, ...key]);

const goingBack = (rows: readonly Standing[], { moved, there }: CarriedRecord, gone: boolean): ReadonlyMap<Standing, RowKey | null> => {
  const went = new Map(moved.rows.map(([of, key, as]) => [nameOf(of, as), key]));
  const stays = new Set(there.map(([of, key]) => nameOf(of, key)));
  const back = new Map<Standing, RowKey | null>();
  const lines = new Set<string>();
  for (const standing of rows) {
    const { row, key } = standing;
    const name = nameOf(row.of, key);
    const follows = row.of === 'stock' && lines.has(nameOf('stock', [key[0] as string, (key[1] as number) - 1]));
    const was = went.get(name);
    if (was === undefined && (stays.has(name) || !(gone || follows))) continue;
    back.set(standing, was ?? null);
    if (row.of === 'stock') lines.add(name);
  }
  return back;
};

const textBack = (text: KeptText, { list, from, to, moved, there }: CarriedRecord, gone: boolean): string => {
  const written = moved.texts.find(([of, key]) => of === text.of && key === text.key);
  if (written !== undefined && written[3] === text.text) return written[2];
  if (!gone || there.some(([of, [key]]) => of === text.of && key === text.key)) return text.text;
  return textNaming(text, list, to, from);
};

const has = (packs: Packs, list: EditedList, id: string): boolean =>
  [...packs.values()].some((pack) => entriesIn(pack, list).some((entry) => entry.id === id));

/**
 * @param phases steps of one phase are taken at once: two entries may change places
 * @param told from which id to which the whole leads, of the entries that stood before
 */
const planSteps = async (reader: Reader, phases: readonly (readonly Step[])[], told: readonly Succession[]): Promise<PlannedCarry> => {
  const guards: Guard[] = [];
  const statements: Statement[] = [];
  const records: CarriedRecord[] = [];
  for (const [list, ofList] of groupBy(told, (pair) => pair.list)) {
    const mine = phases.map((steps) => steps.filter((step) => step.list === list)).filter((steps) => steps.length > 0);
    const held = await readRows(reader, list, [...new Set(mine.flat().flatMap(({ from, to }) => [from, to]))]);
    const texts = await readTexts(reader, list);
    guards.push(...held.map(({ guard }) => guard), ...texts.map(({ guard }) => guard));
    const rows = held.flatMap((each) => each.rows.map((row): Standing => ({ row, id: row.id, key: row.key })));
    const stays = new Map<Standing, StaysSeen>();
    for (const steps of mine) take(steps, rows, stays);
    const written = texts.flatMap((each) => each.texts).map((text) => ({ text, next: textAfter(text, mine.flat()) }));
    for (const pair of ofList) records.push(recordOf(pair, rows, written, stays));
    statements.push(...rowStatements(list, rows.flatMap(movedOf)));
    for (const { text, next } of written) if (next !== text.text) statements.push(textWritten({ ...text, text: next }));
  }
  return {
    seen: records.map(({ seen }) => seen),
    guards,
    statements: (change) => [...statements, ...recordStatements(change, records)],
  };
};

const textAfter = (text: KeptText, steps: readonly Step[]): string => {
  let after = text.text;
  for (const step of steps) after = step.writes({ ...text, text: after });
  return after;
};

const movedOf = ({ row, id, key }: Standing): readonly RowMoved[] => (id === row.id && key === row.key ? [] : [{ row, to: id, as: key }]);

/** Takes steps at once. What cannot stand beside what is there is put back to the id it had before all of them, and told in `stays`. */
const take = (steps: readonly Step[], rows: readonly Standing[], stays: Map<Standing, StaysSeen>): void => {
  const going = steps.map((step) => ({ step, taken: step.takes(rows.filter(({ id }) => id === step.from)) }));
  for (const { taken } of going) for (const [standing] of taken) standing.id = onTheWay;
  for (const { step, taken } of going) {
    const { to, stood } = step;
    const there = rows.filter(({ id }) => id === to);
    const stay = (standing: Standing): void => {
      standing.id = standing.row.id;
      standing.key = standing.row.key;
    };
    const goes = (standing: Standing, as: RowKey): void => {
      standing.id = to;
      standing.key = as;
    };
    const of = (sort: RowSort) => [...taken].filter(([{ row }]) => row.of === sort);
    for (const [standing] of [...of('samples'), ...of('stock')]) goes(standing, standing.key);
    for (const [standing] of of('papers')) {
      // One paper lies beside a thing once.
      const [title, name] = standing.row.more as [string, string];
      if (!there.some(({ row, key }) => row.of === 'papers' && key[0] === standing.key[0])) goes(standing, standing.key);
      else {
        stay(standing);
        stays.set(standing, { of: 'papers', title: title || name });
      }
    }
    const prices = of('prices');
    const [asked, kept] = [lastPrice(prices.map(([standing]) => standing)), lastPrice(there)];
    if (stood && kept !== null) {
      for (const [standing] of prices) {
        stay(standing);
        if (standing === asked?.standing) stays.set(standing, { of: 'prices', ...asked.said, kept: kept.said });
      }
    } else {
      const numbers = new Set(there.flatMap(({ row, key }) => (row.of === 'prices' ? [key[0] as number] : [])));
      const free = prices.map(([standing, was]) => ({ standing, was: was !== null && !numbers.has(was[0] as number) ? was : null }));
      for (const { was } of free) if (was !== null) numbers.add(was[0] as number);
      let last = Math.max(0, ...numbers);
      for (const { standing, was } of free) {
        if (was === null) last += 1;
        goes(standing, was ?? [last]);
      }
    }
  }
};

/** No id of the atlas has a line end in it. */
const onTheWay = '\n';

/** By the last of some states of a price, what is asked; null where nothing is. */
const lastPrice = (rows: readonly Standing[]) => {
  const [standing] = rows.filter(({ row }) => row.of === 'prices').sort((a, b) => (b.key[0] as number) - (a.key[0] as number));
  if (standing === undefined) return null;
  const [amount, money] = standing.row.more as [number | null, string];
  return amount === null ? null : { standing, said: { amount, money } };
};

const recordOf = (
  pair: Succession,
  rows: readonly Standing[],
  written: readonly { readonly text: KeptText; readonly next: string }[],
  stays: ReadonlyMap<Standing, StaysSeen>,
): CarriedRecord => {
  const { list, from, to } = pair;
  const moved = rows.filter(({ row, id }) => row.id === from && id === to);
  const names = (text: KeptText, id: string): boolean => textNaming(text, list, id, onTheWay) !== text.text;
  const texts = written.filter(({ text, next }) => next !== text.text && names(text, from));
  const of = (sort: RowSort): readonly Standing[] => moved.filter(({ row }) => row.of === sort);
  const counts: Record<KeptSort, number> = {
    samples: of('samples').length,
    // Lines as they lie on the shelf; states they had before go with them.
    stock: of('stock').filter(({ row }) => row.more[0] === 1 && row.more[1] === 0).length,
    prices: lastPrice(moved) === null ? 0 : 1,
    papers: of('papers').length,
    courses: texts.filter(({ text }) => text.of === 'courses').length,
    templates: texts.filter(({ text }) => text.of === 'templates').length,
  };
  return {
    ...{ list, from, to },
    moved: {
      rows: moved.map(({ row, key }) => [row.of, row.key, key]),
      texts: texts.map(({ text, next }) => [text.of, text.key, text.text, next]),
    },
    there: [
      ...rows.flatMap(({ row, id }) => (row.id === to && id === to ? [[row.of, row.key] as const] : [])),
      ...written.flatMap(({ text }) => (names(text, to) ? [[text.of, [text.key]] as const] : [])),
    ],
    seen: {
      ...{ list, from, to },
      rows: Object.entries(counts).flatMap(([sort, many]) => (many === 0 ? [] : [{ of: sort as KeptSort, many }])),
      stays: [...stays].flatMap(([{ row }, stay]) => (row.id === from ? [stay] : [])),
    },
  };
};
