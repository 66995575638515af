import { z } from 'zod';
import { counterLetters } from '../../reasoner/plain/counter-letter.ts';
import { stockConditions } from '../../reasoner/plain/stock-condition.ts';
import type { SalvagedRow } from '../salvage/salvage.ts';
import { seenSchema } from '../sheets/schema.ts';
import { photoIdOf } from '../shop/case-photos.ts';
import { isPublicKey, isSignerName } from '../signing/public-key.ts';
import { matchingSchema } from '../tables/column-use.ts';
import { sheetIn } from './sheet-in.ts';

/** A table of what the shop enters and no pack brings back, and how its rows are told from others, and from what is left of them. */
export interface ShopTable {
  readonly name: string;
  /** The columns that tell its rows apart. */
  readonly keys: readonly string[];
  /** The column that says whose a row is, and the table those stand in. */
  readonly whose: { readonly column: string; readonly table: 'sheets' | 'learners' } | null;
  /** The column with the time a row was written, which tells the newer of two. */
  readonly at: string | null;
  /** Whether a row that can be read hangs together in itself, so that it can only be a whole row of this table. */
  holds(row: SalvagedRow): boolean;
}

const text = (value: unknown): value is string => typeof value === 'string';
const id = (value: unknown): boolean => text(value) && value !== '';
const textOrNull = (value: unknown): boolean => value === null || text(value);
/** Larger ones the store never keeps, and its driver binds none. */
const whole = (value: unknown): value is number => typeof value === 'number' && Number.isInteger(value) && Math.abs(value) < 2 ** 31;
const [isoTime, isoDay] = [z.iso.datetime(), z.iso.date()];
const time = (value: unknown): boolean => isoTime.safeParse(value).success;
const day = (value: unknown): boolean => isoDay.safeParse(value).success;
const year = (value: unknown): boolean => whole(value) && value > 1900 && value < 10_000;
const flag = (value: unknown): boolean => value === 0 || value === 1;
const hash = (value: unknown): boolean => text(value) && /^[0-9a-f]{64}$/.test(value);
/** A word as a text: one whose sort was spoilt is bytes of the same letters, which the new atlas refuses. */
const oneOf =
  (...words: readonly unknown[]) =>
  (value: unknown): boolean =>
    words.includes(value);
const level = oneOf('by eye', 'measured');
const letter = oneOf('', ...counterLetters);
const picture = oneOf('image/jpeg', 'image/png', 'image/webp');
const status = oneOf(null, 'ruled out', 'open', 'stands');
const decider = oneOf('shop', 'maker');
const condition = oneOf(...stockConditions);
const stamped = oneOf('serial number', 'part number');

/** The value of a JSON text; undefined where it is none. */
export const jsonIn = (value: unknown): unknown => {
  if (!text(value)) return undefined;
  try {
    return JSON.parse(value);
  } catch {
    return undefined;
  }
};
const list = (value: unknown): boolean => {
  const read = jsonIn(value);
  return Array.isArray(read) && read.every(text);
};
const record = (value: unknown): Readonly<Record<string, unknown>> | null => {
  const read = jsonIn(value);
  return typeof read === 'object' && read !== null ? (read as Record<string, unknown>) : null;
};
const subject = (value: unknown): boolean => {
  if (value === null) return true;
  const read = record(value);
  return read !== null && text(read.kind) && text(read.id) && text(read.text);
};
const card = (value: unknown): boolean => {
  const read = record(value);
  const figures = ['stability', 'difficulty', 'elapsed_days', 'scheduled_days', 'learning_steps', 'reps', 'lapses', 'state'];
  return (
    read !== null &&
    time(read.due) &&
    (read.last_review === undefined || time(read.last_review)) &&
    figures.every((name) => typeof read[name] === 'number')
  );
};

const sheetNamed = (body: unknown, name: unknown) => {
  const sheet = sheetIn(body);
  return sheet?.id === name ? sheet : null;
};

/** Of a photograph all but its small picture, which may be lost by itself. */
export const photoHolds = (row: SalvagedRow): boolean =>
  hash(row.id) &&
  picture(row.type) &&
  whole(row.width) &&
  row.width >= 1 &&
  whole(row.height) &&
  row.height >= 1 &&
  Buffer.isBuffer(row.bytes) &&
  row.size === row.bytes.length &&
  photoIdOf(row.bytes) === row.id;

/** Of a row of the index of case numbers in their years. */
export const isNumbered = (row: SalvagedRow): boolean => year(row.year) && whole(row.number) && row.number >= 1 && id(row.sheet);

/** Of a row of what was counted by the year alone. */
export const isYearCount = (row: SalvagedRow): boolean => year(row.year) && whole(row.last) && row.last >= 1;

/** Of a row of the index of the letters in case numbers. */
export const isLettered = (row: SalvagedRow): boolean => letter(row.letter) && id(row.sheet);

/** Of a row of the index of the photographs that cases show. */
export const isShown = (row: SalvagedRow): boolean => hash(row.photo) && id(row.sheet);

const ofSheet = { column: 'sheet', table: 'sheets' } as const;
const ofLearner = { column: 'learner', table: 'learners' } as const;

const setting = (key: unknown, value: unknown): boolean => {
  const read = record(value);
  if (read === null) return false;
  switch (key) {
    case 'letterhead':
      return (
        text(read.name) && Array.isArray(read.lines) && read.lines.every(text) && (read.logo === null || typeof read.logo === 'object')
      );
    case 'money':
      return text(read.code) && text(read.written) && typeof read.before === 'boolean' && whole(read.decimals);
    case 'measures':
      return text(read.unit) && typeof read.comma === 'boolean';
    case 'people':
      return Array.isArray(read.names) && read.names.every(text);
    case 'counter':
      return read.letter !== '' && letter(read.letter);
    default:
      return false;
  }
};
/** What was seen; of a measure with its uncertainty. */
const sampled = (value: unknown, u: unknown): boolean => {
  const seen = seenSchema.safeParse(jsonIn(value));
  return seen.success && (seen.data.kind === 'measure' ? typeof u === 'number' && u > 0 : u === null);
};
/** An amount with its money, or neither. */
const price = (amount: unknown, money: unknown): boolean =>
  amount === null ? money === null : typeof amount === 'number' && amount > 0 && text(money);

/** In an order in which each refers only to those before it. */
export const shopTables: readonly ShopTable[] = [
  {
    name: 'sheets',
    keys: ['id', 'origin'],
    whose: { column: 'id', table: 'sheets' },
    at: 'saved_at',
    holds: (row) => {
      const sheet = sheetNamed(row.body, row.id);
      return (
        sheet !== null &&
        row.origin === 'own' &&
        row.pack === null &&
        whole(row.position) &&
        row.title === sheet.title &&
        row.kind === sheet.kind &&
        row.claimed === sheet.claimed &&
        row.observations === sheet.observations.length &&
        time(row.saved_at)
      );
    },
  },
  {
    name: 'case_counts',
    keys: ['letter', 'year'],
    whose: null,
    at: null,
    holds: (row) => letter(row.letter) && isYearCount(row),
  },
  {
    name: 'cases',
    keys: ['sheet'],
    whose: ofSheet,
    at: null,
    holds: (row) => id(row.sheet) && year(row.year) && whole(row.number) && row.number >= 1 && day(row.opened_on) && letter(row.letter),
  },
  {
    name: 'case_details',
    keys: ['sheet', 'n'],
    whose: ofSheet,
    at: 'at',
    holds: (row) =>
      id(row.sheet) && whole(row.n) && time(row.at) && text(row.customer) && text(row.looked_by) && text(row.notes) && text(row.who),
  },
  {
    name: 'case_entries',
    keys: ['sheet', 'n'],
    whose: ofSheet,
    at: 'at',
    holds: (row) =>
      whole(row.n) &&
      time(row.at) &&
      text(row.who) &&
      text(row.edition) &&
      record(row.verdict)?.edition === row.edition &&
      status(row.claim_status) &&
      sheetNamed(row.body, row.sheet) !== null,
  },
  {
    name: 'case_words',
    keys: ['sheet', 'n'],
    whose: ofSheet,
    at: 'at',
    holds: (row) =>
      id(row.sheet) &&
      whole(row.n) &&
      row.n >= 1 &&
      time(row.at) &&
      text(row.who) &&
      (row.decided_by === null
        ? [row.person, row.day, row.decision, row.ground].every((value) => value === null)
        : decider(row.decided_by) && text(row.person) && day(row.day) && text(row.decision) && text(row.ground)),
  },
  {
    name: 'unit_numbers',
    keys: ['sheet', 'n'],
    whose: ofSheet,
    at: null,
    holds: (row) => id(row.sheet) && whole(row.n) && stamped(row.says) && text(row.text) && textOrNull(row.key),
  },
  {
    name: 'case_origins',
    keys: ['sheet', 'n'],
    whose: ofSheet,
    at: 'at',
    holds: (row) => id(row.sheet) && whole(row.n) && text(row.number) && time(row.at) && text(row.who),
  },
  {
    name: 'cases_left',
    keys: ['sheet', 'n'],
    whose: ofSheet,
    at: 'at',
    holds: (row) =>
      id(row.sheet) && whole(row.n) && time(row.at) && text(row.who) && text(row.reason) && whole(row.entry) && hash(row.otherwise),
  },
  {
    name: 'own_words',
    keys: ['pack', 'cell'],
    whose: null,
    at: null,
    holds: (row) =>
      id(row.pack) &&
      text(row.cell) &&
      /^[a-z]+\/./i.test(row.cell) &&
      [row.own, row.said].every((value) => value === null || jsonIn(value) !== undefined) &&
      row.own !== row.said,
  },
  {
    name: 'keyring',
    keys: ['key'],
    whose: null,
    at: 'at',
    holds: (row) =>
      text(row.key) &&
      isPublicKey(row.key) &&
      text(row.name) &&
      isSignerName(row.name) &&
      time(row.since) &&
      text(row.who) &&
      (row.withdrawn_at === null ? row.withdrawn_who === null : time(row.withdrawn_at) && text(row.withdrawn_who)) &&
      time(row.at),
  },
  {
    name: 'table_templates',
    keys: ['name'],
    whose: null,
    at: 'saved_at',
    holds: (row) => id(row.name) && list(row.headings) && matchingSchema.safeParse(jsonIn(row.matching)).success && time(row.saved_at),
  },
  {
    name: 'photos',
    keys: ['id'],
    whose: null,
    at: null,
    holds: (row) => photoHolds(row) && picture(row.thumbnail_type) && Buffer.isBuffer(row.thumbnail),
  },
  {
    name: 'case_photos',
    keys: ['sheet', 'photo'],
    whose: ofSheet,
    at: 'added_at',
    holds: (row) =>
      id(row.sheet) &&
      hash(row.photo) &&
      time(row.added_at) &&
      text(row.caption) &&
      textOrNull(row.about_slot) &&
      textOrNull(row.about_observation) &&
      (row.about_slot === null || row.about_observation === null) &&
      whole(row.n),
  },
  {
    name: 'shop_settings',
    keys: ['key'],
    whose: null,
    at: 'at',
    holds: (row) => setting(row.key, row.value) && time(row.at) && text(row.who),
  },
  {
    name: 'kept_files',
    keys: ['id'],
    whose: null,
    at: null,
    holds: (row) =>
      id(row.type) && Buffer.isBuffer(row.bytes) && row.size === row.bytes.length && hash(row.id) && photoIdOf(row.bytes) === row.id,
  },
  {
    name: 'documents',
    keys: ['about', 'of', 'file'],
    whose: null,
    at: 'at',
    holds: (row) =>
      oneOf('source', 'part')(row.about) &&
      id(row.of) &&
      hash(row.file) &&
      whole(row.n) &&
      text(row.name) &&
      text(row.title) &&
      time(row.at) &&
      text(row.who),
  },
  {
    name: 'stock',
    keys: ['line', 'n'],
    whose: null,
    at: 'at',
    holds: (row) =>
      id(row.line) &&
      whole(row.n) &&
      time(row.at) &&
      text(row.who) &&
      flag(row.gone) &&
      textOrNull(row.part) &&
      text(row.words) &&
      text(row.number) &&
      whole(row.many) &&
      row.many >= 0 &&
      condition(row.condition) &&
      price(row.price, row.money) &&
      text(row.place) &&
      text(row.note),
  },
  {
    name: 'shop_prices',
    keys: ['part', 'n'],
    whose: null,
    at: 'at',
    holds: (row) => id(row.part) && whole(row.n) && time(row.at) && text(row.who) && price(row.price, row.money) && text(row.note),
  },
  {
    name: 'samples',
    keys: ['id'],
    whose: null,
    at: 'at',
    holds: (row) =>
      [row.id, row.part, row.slot, row.feature, row.from_sheet, row.entry].every(id) &&
      sampled(row.value, row.u) &&
      text(row.how) &&
      text(row.case_number) &&
      time(row.kept_at) &&
      text(row.who) &&
      textOrNull(row.out_by) &&
      time(row.at),
  },
  {
    name: 'courses',
    keys: ['id'],
    whose: null,
    at: null,
    holds: (row) =>
      id(row.id) &&
      text(row.name) &&
      (row.families === null || list(row.families)) &&
      (row.kinds === null || list(row.kinds)) &&
      whole(row.new_per_day) &&
      row.new_per_day >= 0,
  },
  {
    name: 'learners',
    keys: ['id'],
    whose: { column: 'id', table: 'learners' },
    at: null,
    holds: (row) => id(row.id) && text(row.name) && textOrNull(row.course) && time(row.since) && whole(row.n) && level(row.level),
  },
  {
    name: 'drill_cards',
    keys: ['learner', 'topic'],
    whose: ofLearner,
    at: null,
    holds: (row) => id(row.learner) && id(row.topic) && time(row.due) && card(row.card),
  },
  {
    name: 'drill_answers',
    // Not by its turn: mending counts those of a learner anew, and a copy from before that has the same ones by other numbers.
    keys: ['learner', 'topic', 'seed'],
    whose: ofLearner,
    at: 'at',
    holds: (row) =>
      id(row.learner) &&
      whole(row.n) &&
      id(row.topic) &&
      whole(row.seed) &&
      text(row.edition) &&
      flag(row.first) &&
      list(row.response) &&
      flag(row.correct) &&
      subject(row.asked) &&
      subject(row.answered) &&
      time(row.at),
  },
];

export const keyOfRow = ({ keys }: Pick<ShopTable, 'keys'>, row: SalvagedRow): string => JSON.stringify(keys.map((key) => row[key]));
