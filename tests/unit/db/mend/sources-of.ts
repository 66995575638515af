import { type Gathered, gather } from '../../../../db/mend/gather.ts';
import type { SheetFile } from '../../../../db/mend/gathering.ts';
import { lettersIndex, numbersIndex, photosIndex, yearCounts, yearsIndex } from '../../../../db/mend/layouts.ts';
import { keyOfRow, shopTables } from '../../../../db/mend/shop-tables.ts';
import type { KeptPhoto, KeptTable, Source } from '../../../../db/mend/source.ts';
import type { SalvagedRow } from '../../../../db/salvage/salvage.ts';
import { photoIdOf } from '../../../../db/shop/case-photos.ts';

/** How a row stands in a file: a tree leads to it; on a page nothing leads to; read in part; or only an index of it is left. */
type How = 'led to' | 'loose' | 'torn' | 'gone';
interface Placed {
  readonly table: string;
  readonly row: SalvagedRow;
  readonly how: How;
}

const placed =
  (how: How) =>
  (table: string, ...rows: readonly SalvagedRow[]): readonly Placed[] =>
    rows.map((row) => ({ table, row, how }));
export const kept = placed('led to');
export const loose = placed('loose');
export const torn = placed('torn');

/** The same rows, with those of some tables standing otherwise. */
export const but = (rows: readonly Placed[], how: How, ...tables: readonly string[]): readonly Placed[] =>
  rows.map((one) => (tables.includes(one.table) ? { ...one, how } : one));
export const without = (rows: readonly Placed[], ...tables: readonly string[]): readonly Placed[] =>
  rows.filter(({ table }) => !tables.includes(table));

interface Further {
  readonly photos?: readonly KeptPhoto[];
  /** Tables with a page that cannot be read, whatever else is said of their rows. */
  readonly broken?: readonly string[];
  /** What the damaged index of case numbers, or of the photographs of cases, still gives. Left out where it is whole. */
  readonly numbers?: readonly SalvagedRow[];
  /** It is from before letters counted by themselves: its numbers stand in one index, their letters in another, and it counted by the year. */
  readonly older?: true;
  readonly letters?: readonly SalvagedRow[];
  readonly shown?: readonly SalvagedRow[];
  /** What these give is an index that is whole, though its table says otherwise: one of both is from before. */
  readonly stale?: true;
}

const sourceOf = (
  file: string,
  at: string | null,
  all: readonly Placed[],
  { photos = [], broken = [], numbers, older, letters, shown, stale }: Further,
): Source => {
  const tables = new Map<string, KeptTable>();
  for (const table of shopTables) {
    const mine = all.filter((one) => one.table === table.name);
    const rows = new Map<string, KeptTable['rows'] extends ReadonlyMap<string, infer Kept> ? Kept : never>();
    for (const { row, how } of mine.filter((one) => one.how === 'led to' || one.how === 'loose')) {
      const key = keyOfRow(table, row);
      if (!table.holds(row) || rows.has(key)) throw new Error(`no such row of ${table.name} is kept: ${JSON.stringify(row)}`);
      rows.set(key, { row, loose: how === 'loose' });
    }
    // Their pictures are read apart; a photograph without its small one is no whole row.
    if (table.name === 'photos')
      for (const { id, small } of photos) if (small) rows.set(JSON.stringify([id]), { row: { id }, loose: false });
    const whole = mine.every(({ how }) => how === 'led to') && !broken.includes(table.name);
    tables.set(table.name, { rows, torn: mine.filter(({ how }) => how === 'torn').map(({ row }) => row), complete: whole });
  }
  /** An index that is whole names each row its table had, readable or not. */
  const indexed = (table: string, columns: readonly string[]): SalvagedRow[] =>
    all
      .filter((one) => one.table === table && one.how !== 'loose' && columns.every((column) => column in one.row))
      .map(({ row }) => Object.fromEntries(columns.map((column) => [column, row[column] ?? null])));
  const numberOf = [...(older ? [] : ['letter']), 'year', 'number', 'sheet'];
  const indexes = new Map([
    [older ? yearsIndex : numbersIndex, { rows: numbers ?? indexed('cases', numberOf), complete: stale ?? numbers === undefined }],
    [lettersIndex, { rows: older ? (letters ?? indexed('cases', ['letter', 'sheet'])) : [], complete: letters === undefined }],
    [yearCounts, { rows: indexed(yearCounts, ['year', 'last']), complete: !broken.includes(yearCounts) }],
    [photosIndex, { rows: shown ?? indexed('case_photos', ['photo', 'sheet']), complete: stale ?? shown === undefined }],
  ]);
  return {
    file,
    at,
    table: (name) => tables.get(name) as KeptTable,
    photos: new Map(photos.map((photo) => [photo.id, photo])),
    index: (name) => indexes.get(name)?.rows ?? [],
    isComplete: (name) => indexes.get(name)?.complete ?? tables.get(name)?.complete ?? true,
    rowsOf: (name) => all.filter(({ table, how }) => table === name && how === 'led to').map(({ row }) => row),
    close: () => undefined,
  };
};

export const damagedOf = (rows: readonly Placed[], further: Further = {}): Source => sourceOf('atlas.sqlite', null, rows, further);
export const backupOf = (at: string, rows: readonly Placed[], further: Further = {}): Source => sourceOf(`${at}.sqlite`, at, rows, further);
/** How what came from a backup says so. */
export const inBackup = (at: string) => ({ file: `${at}.sqlite`, at });

export const gathered = (
  damaged: Source,
  copies: {
    readonly backups?: readonly Source[];
    readonly sheetFiles?: readonly SheetFile[];
    readonly photoFiles?: readonly KeptPhoto[];
  } = {},
): Gathered =>
  gather({
    damaged,
    backups: () => copies.backups ?? [],
    sheetFiles: () => copies.sheetFiles ?? [],
    photoFile: (id) => copies.photoFiles?.find((photo) => photo.id === id) ?? null,
  });

export const time = (day: string): string => `${day}T08:00:00.000Z`;

export const bodyOf = (id: string, title = `Unit ${id}`): string =>
  JSON.stringify({
    id,
    title,
    story: 'Oil at the nose.',
    kind: 'found',
    claimed: 'k27',
    claimedMaker: null,
    observations: [],
    absent: [],
    chosen: {},
  });

export const sheet = (id: string, day: string, title?: string, turn = 1): SalvagedRow => ({
  id,
  origin: 'own',
  pack: null,
  position: turn,
  title: title ?? `Unit ${id}`,
  kind: 'found',
  claimed: 'k27',
  observations: 0,
  body: bodyOf(id, title),
  saved_at: time(day),
});
/** The row of a sheet of which another place than its own row gave the state: its turn is given anew. */
export const sheetAgain = (id: string, savedAt: string, title?: string): SalvagedRow => ({
  ...sheet(id, '2026-01-01', title, 0),
  saved_at: savedAt,
});
export const head = (id: string, number: number, day: string): SalvagedRow => ({
  sheet: id,
  year: Number(day.slice(0, 4)),
  number,
  opened_on: day,
  letter: 'A',
});
export const words = (id: string, n: number, day: string, customer = ''): SalvagedRow => ({
  sheet: id,
  n,
  at: time(day),
  customer,
  looked_by: 'Osk',
  notes: '',
  who: 'Osk',
});
export const entry = (id: string, n: number, day: string, title?: string): SalvagedRow => ({
  sheet: id,
  n,
  at: time(day),
  who: 'Wenna',
  edition: 'small 1',
  body: bodyOf(id, title),
  verdict: '{"edition":"small 1"}',
  claim_status: null,
});
export const decision = (id: string, n: number, day: string): SalvagedRow => ({
  sheet: id,
  n,
  at: time(day),
  who: 'Osk',
  decided_by: 'shop',
  person: 'Osk',
  day,
  decision: 'Rebuilt.',
  ground: 'The shaft is straight.',
});
export const stamped = (id: string, n: number, text: string): SalvagedRow => ({ sheet: id, n, says: 'serial number', text, key: text });
export const origin = (id: string, n: number, day: string): SalvagedRow => ({
  sheet: id,
  n,
  number: '2025-0007',
  at: time(day),
  who: 'Osk',
});
export const shown = (id: string, photo: KeptPhoto, day: string, caption = 'the nose'): SalvagedRow => ({
  sheet: id,
  photo: photo.id,
  added_at: time(day),
  caption,
  about_slot: null,
  about_observation: null,
  n: 1,
});

/** A sheet saved once on a day, with its case. */
export const caseOf = (id: string, number: number, day: string, title?: string, letter = 'A'): readonly Placed[] => [
  ...kept('sheets', sheet(id, day, title)),
  ...kept('cases', { ...head(id, number, day), letter }),
  ...kept('case_details', words(id, 1, day)),
  ...kept('case_entries', entry(id, 1, day, title)),
];

export const photo = (n: number, small = true, from?: KeptPhoto['from']): KeptPhoto => ({
  id: photoIdOf(Buffer.from(`picture ${n}`)),
  small,
  ...(from === undefined ? {} : { from }),
  read: () => null,
});

export const course = (id: string): SalvagedRow => ({ id, name: `Course ${id}`, families: null, kinds: '["looks"]', new_per_day: 4 });
export const learner = (id: string, day: string): SalvagedRow => ({
  id,
  name: `Learner ${id}`,
  course: null,
  since: time(day),
  n: 1,
  level: 'by eye',
});
export const card = (id: string, topic: string, day: string): SalvagedRow => ({
  learner: id,
  topic,
  due: time(day),
  card: JSON.stringify({
    due: time(day),
    stability: 2,
    difficulty: 5,
    elapsed_days: 0,
    scheduled_days: 1,
    learning_steps: 0,
    reps: 1,
    lapses: 0,
    state: 2,
  }),
});
export const answer = (id: string, n: number, day: string): SalvagedRow => ({
  learner: id,
  n,
  topic: 'looks:petrel+skua',
  seed: n,
  edition: 'small 1',
  first: 1,
  response: '["choice-1"]',
  correct: 1,
  asked: null,
  answered: null,
  at: time(day),
});
