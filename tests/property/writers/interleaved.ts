import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Connection } from '../../../db/driver/connection.ts';
import { openStore, type Store } from '../../../db/index.ts';
import type { CallArgs, CallName, CallResult, Reply } from '../../../electron/bridge/contract.ts';
import { receiveText } from '../../../electron/bridge/receive.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { expandForPacks } from '../../../electron/desk/open-house.ts';
import { asId, type Sheet } from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { fieldsMerged, type Side } from '../../../reasoner/plain/fields-merged.ts';
import { sheetsMerged } from '../../../reasoner/plain/sheets-merged.ts';
import { Dice } from '../../oracle/dice.ts';

/**
 * Writers of two programs, two windows of one and a window of the other, over one file. By a seed each opens, edits and saves the same few sheets, the words beside them and
 * courses, alone or at the same moment as another, and does what a window does when it is told that something was changed: reads, joins or decides, tries again.
 *
 * Whatever is typed is a token of its own. The model knows tokens and nothing else: which stand in each state that was acknowledged, and which each writer has read. It takes the
 * states from the file by SQL of its own. A token that a save took away, and that whoever saved had not read, is lost unseen.
 */
export interface Interleaved {
  readonly saves: number;
  /** Saves that were refused because something was changed elsewhere. */
  readonly told: number;
  /** Of these, joined without anybody being asked, or with. */
  readonly merged: number;
  /** Disagreements decided one by one, and whole states put over another or given up. */
  readonly decided: number;
  readonly removed: number;
  /** Sheets saved anew after they were removed elsewhere. */
  readonly anew: number;
  /** Steps two writers took at the same moment. */
  readonly atOnce: number;
  /** Each with what was lost. */
  readonly lostUnseen: readonly string[];
}

export interface HowInterleaved {
  readonly seed: number;
  /** So many saves are acknowledged before it ends. */
  readonly saves: number;
  /** How whoever is told goes on: as a window does, or, to prove that the model sees it, over what is there without a look. */
  readonly protocol?: 'look' | 'blind';
  readonly onRound?: (so: Interleaved) => void;
}

type Ask = <C extends CallName>(name: C, args: CallArgs<C>) => Promise<Reply<C>>;
type Opened = CallResult<'sheets.open'>;
type Words = { readonly customer: string; readonly lookedBy: string; readonly notes: string };
type CourseFields = Pick<CallResult<'drills.saveCourse'>, 'name' | 'newPerDay' | 'families' | 'kinds'>;

/** A thing whose states the model follows: `sheet s1`, `words s1`, `course c1`. */
type Thing = string;

interface Writer {
  readonly name: string;
  readonly ask: Ask;
  /** What it has on its bench, by sheet: what that was made of, and what it is now. */
  readonly sheets: Map<string, { base: Opened | null; mine: Sheet }>;
  readonly words: Map<string, { base: Words; version: string; mine: Words }>;
  readonly courses: Map<string, { base: CourseFields; version: string; mine: CourseFields }>;
  /** Tokens it has read, by thing. */
  readonly seen: Map<Thing, Set<string>>;
}

/** A change that was acknowledged: null for a thing that was removed. */
interface Acknowledged {
  readonly writer: Writer;
  readonly thing: Thing;
  readonly state: string | null;
  /** What the writer had read of the thing by then. */
  readonly seen: ReadonlySet<string>;
}

const smallPack = path.join(import.meta.dirname, '../../unit/db/fixtures/small-pack');
const tokensIn = (text: string | null): Set<string> => new Set(text?.match(/t\d+z/g) ?? []);
const sheetsInRound = 3;
const savesInRound = 150;
const mostTries = 4;

export const interleaved = async ({ seed, saves: wanted, protocol = 'look', onRound }: HowInterleaved): Promise<Interleaved> => {
  const folder = mkdtempSync(path.join(tmpdir(), 'kinplate-writers-'));
  const file = path.join(folder, 'atlas.sqlite');
  const stores: Store[] = [];
  const open = async (): Promise<Ask> => {
    const opened = await openStore(file, { expandCode: expandForPacks });
    if (!opened.ok) throw new Error(opened.trouble.sentence);
    stores.push(opened.value);
    if (stores.length === 1) {
      const loaded = await opened.value.packs.load(smallPack);
      if (!loaded.ok) throw new Error(loaded.trouble.sentence);
    }
    const desk = openDesk(opened.value);
    // As over the bridge: a text in, a text out.
    return async (name, args) => {
      const { reply } = await receiveText(desk, name, JSON.stringify(args), (place, error) => {
        throw new Error(`a bug at ${place}`, { cause: error });
      });
      return JSON.parse(JSON.stringify(reply)) as Reply<typeof name>;
    };
  };
  const [first, second] = [await open(), await open()];
  const watch = await Connection.open(file, { mode: 'read', busyMs: 60_000 });
  try {
    return await rounds([first, first, second], watch, new Dice(seed), wanted, protocol, onRound);
  } finally {
    await watch.close();
    for (const store of stores) await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
};

const rounds = async (
  asks: readonly Ask[],
  watch: Connection,
  dice: Dice,
  wanted: number,
  protocol: 'look' | 'blind',
  onRound: ((so: Interleaved) => void) | undefined,
): Promise<Interleaved> => {
  const count = { saves: 0, told: 0, merged: 0, decided: 0, removed: 0, anew: 0, atOnce: 0 };
  const lost: string[] = [];
  let token = 0;
  const fresh = () => {
    token += 1;
    return `t${token}z`;
  };

  for (let round = 0; count.saves < wanted; round += 1) {
    const ids = Array.from({ length: sheetsInRound }, (_, n) => `r${round}s${n}`);
    const writers = asks.map(
      (ask, n): Writer => ({ name: `writer ${n + 1}`, ask, sheets: new Map(), words: new Map(), courses: new Map(), seen: new Map() }),
    );
    const courses: string[] = [];
    /** Every state of a sheet that was acknowledged, to be found in the history of its case. */
    const kept = new Map<string, string[]>();
    let before = await statesIn(watch, ids, courses);

    const savesBefore = count.saves;
    while (count.saves < Math.min(wanted, savesBefore + savesInRound)) {
      const acknowledged: Acknowledged[] = [];
      const acts = dice.often(35) ? dice.some(writers, 2) : [dice.one(writers)];
      if (acts.length > 1) count.atOnce += 1;
      // Each draws its own dice beforehand: what comes first of two at once is for the file to say.
      const own = acts.map((writer) => ({ writer, dice: new Dice(dice.whole(1, 1_000_000_000)) }));
      await Promise.all(
        own.map(({ writer, dice: mine }) => step({ writer, dice: mine, ids, courses, fresh, count, protocol, acknowledged, lost })),
      );
      const after = await statesIn(watch, ids, courses);
      lost.push(...lostBetween(before, after, acknowledged));
      for (const { thing, state } of acknowledged) {
        if (!thing.startsWith('sheet ')) continue;
        if (state === null) kept.delete(thing);
        else kept.set(thing, [...(kept.get(thing) ?? []), state]);
      }
      before = after;
    }
    lost.push(...(await missingInHistory(watch, ids, kept)));
    onRound?.({ ...count, lostUnseen: lost });
  }
  return { ...count, lostUnseen: lost };
};

interface Step {
  readonly writer: Writer;
  readonly dice: Dice;
  readonly ids: readonly string[];
  readonly courses: string[];
  readonly fresh: () => string;
  readonly count: { saves: number; told: number; merged: number; decided: number; removed: number; anew: number; atOnce: number };
  readonly protocol: 'look' | 'blind';
  readonly acknowledged: Acknowledged[];
  readonly lost: string[];
}

const step = async (its: Step): Promise<void> => {
  const { dice, ids } = its;
  const id = dice.one(ids);
  const what = dice.whole(0, 99);
  if (what < 15) return openSheet(its, id);
  if (what < 40) return editSheet(its, id);
  if (what < 65) return saveSheet(its, id);
  if (what < 85) return writeWords(its, id);
  if (what < 97) return saveCourse(its);
  return removeSheet(its, id);
};

const read = ({ writer }: Step, thing: Thing, text: string): void => {
  const known = writer.seen.get(thing) ?? new Set();
  for (const token of tokensIn(text)) known.add(token);
  writer.seen.set(thing, known);
};

const acknowledge = (its: Step, thing: Thing, state: unknown): void => {
  const { writer, acknowledged, count } = its;
  if (state !== null) {
    count.saves += 1;
    read(its, thing, JSON.stringify(state));
  }
  acknowledged.push({ writer, thing, state: state === null ? null : JSON.stringify(state), seen: new Set(writer.seen.get(thing)) });
};

/** What is there, read; null where nothing is. */
const look = async (its: Step, id: string): Promise<Opened | null> => {
  const reply = await its.writer.ask('sheets.open', { id });
  if (!reply.ok) {
    if (reply.trouble.code === 'not-found') return null;
    throw new Error(reply.trouble.sentence);
  }
  if (its.protocol === 'look') read(its, `sheet ${id}`, JSON.stringify(reply.value.sheet));
  return reply.value;
};

const openSheet = async (its: Step, id: string): Promise<void> => {
  const base = await look(its, id);
  // What is unsaved here stays: a window asks before it gives that up.
  const held = its.writer.sheets.get(id);
  if (held !== undefined && JSON.stringify(held.mine) !== JSON.stringify(held.base?.sheet)) return;
  if (base !== null) its.writer.sheets.set(id, { base, mine: base.sheet });
};

const editSheet = async (its: Step, id: string): Promise<void> => {
  const { writer, dice, fresh } = its;
  const held = writer.sheets.get(id) ?? { base: null, mine: blankSheet(asId(id)) };
  const { mine } = held;
  const [at, token] = [dice.whole(0, Math.max(0, mine.observations.length - 1)), fresh()];
  const edits: (() => Sheet)[] = [
    () => ({ ...mine, title: token }),
    () => ({ ...mine, story: `${mine.story} ${token}`.slice(-60) }),
    () => ({ ...mine, claimed: token }),
    () => ({ ...mine, observations: [...mine.observations, entry(mine, token, dice.whole(6, 8))] }),
    () => ({ ...mine, observations: mine.observations.map((one, i) => (i === at ? { ...one, note: token } : one)) }),
    () => ({ ...mine, observations: mine.observations.filter((_, i) => i !== at) }),
    () => ({ ...mine, absent: mine.absent.length > 0 ? [] : [asId('bearing-housing')] }),
  ];
  writer.sheets.set(id, { ...held, mine: dice.one(edits)() });
};

/** An entry under the next id that is free here, as the window gives them; elsewhere it may be taken. */
const entry = (sheet: Sheet, note: string, blades: number): Sheet['observations'][number] => {
  let number = sheet.observations.length + 1;
  while (sheet.observations.some(({ id }) => id === `o${number}`)) number += 1;
  return {
    id: asId(`o${number}`),
    slot: asId('compressor-wheel'),
    feature: asId('cw-blades'),
    value: { kind: 'count', from: blades, to: blades },
    sure: { kind: 'seen' },
    note,
  };
};

const saveSheet = async (its: Step, id: string): Promise<void> => {
  const { writer, dice, count } = its;
  const held = writer.sheets.get(id);
  if (held === undefined) return;
  let { base, mine } = held;
  for (let tries = 0; tries < mostTries; tries += 1) {
    const reply = await writer.ask('sheets.save', { sheet: mine, who: writer.name, madeAgainst: base?.version ?? null });
    if (reply.ok) {
      writer.sheets.set(id, { base: { sheet: mine, version: reply.value.version, whole: null, saved: null }, mine });
      return acknowledge(its, `sheet ${id}`, mine);
    }
    if (reply.trouble.code !== 'changed-since') throw new Error(`${reply.trouble.code}: ${reply.trouble.sentence}`);
    count.told += 1;
    const theirs = await look(its, id);
    if (theirs === null) {
      // Removed elsewhere: saved anew, or left.
      writer.sheets.delete(id);
      count.decided += 1;
      if (dice.often(50)) return;
      count.anew += 1;
      base = null;
      continue;
    }
    if (its.protocol === 'blind') {
      base = theirs;
      continue;
    }
    const how = dice.whole(0, 9);
    if (how === 0) {
      count.decided += 1;
      writer.sheets.set(id, { base: theirs, mine: theirs.sheet });
      return;
    }
    if (how === 1) count.decided += 1;
    else {
      const joined = join(base?.sheet ?? null, mine, theirs.sheet, its);
      its.lost.push(...lostInJoining(id, base?.sheet ?? null, mine, theirs.sheet, joined));
      mine = joined.merged;
    }
    base = theirs;
    writer.sheets.set(id, { base, mine });
    if (how === 2) return;
  }
};

interface Joined {
  readonly merged: Sheet;
  /** What each decided disagreement said on either side. */
  readonly decided: string;
}

const join = (base: Sheet | null, mine: Sheet, theirs: Sheet, { dice, count }: Step): Joined => {
  const open = sheetsMerged(base, mine, theirs);
  const sides = new Map(open.disagreements.map(({ key }): [string, Side] => [key, dice.one(['mine', 'theirs'])]));
  count.merged += 1;
  count.decided += sides.size;
  return { merged: sheetsMerged(base, mine, theirs, sides).merged, decided: JSON.stringify(open.disagreements) };
};

/** Tokens of either side that joining left out though nobody took them away and nobody was asked. */
const lostInJoining = (id: string, base: Sheet | null, mine: Sheet, theirs: Sheet, { merged, decided }: Joined): string[] => {
  const [was, here, there, is, asked] = [base, mine, theirs, merged]
    .map((one) => tokensIn(JSON.stringify(one)))
    .concat(tokensIn(decided)) as [Set<string>, Set<string>, Set<string>, Set<string>, Set<string>];
  return (
    [...new Set([...here, ...there])]
      .filter((token) => !is.has(token) && !asked.has(token))
      // In the earlier state and not on one side: that side took it away, having read it.
      .filter((token) => !(was.has(token) && !(here.has(token) && there.has(token))))
      .map((token) => `joining sheet ${id} left out ${token}`)
  );
};

const wordsOf = ({ customer, lookedBy, notes }: Words): Words => ({ customer, lookedBy, notes });

const lookAtWords = async (its: Step, id: string) => {
  const reply = await its.writer.ask('cases.open', { sheet: id });
  if (!reply.ok) {
    if (reply.trouble.code === 'not-found') return null;
    throw new Error(reply.trouble.sentence);
  }
  if (its.protocol === 'look') read(its, `words ${id}`, JSON.stringify(wordsOf(reply.value)));
  return { words: wordsOf(reply.value), version: reply.value.version as string };
};

/** One field is typed and left; now and then the page was read long before. */
const writeWords = async (its: Step, id: string): Promise<void> => {
  const { writer, dice, count, fresh } = its;
  if (!writer.words.has(id) || dice.often(30)) {
    const there = await lookAtWords(its, id);
    if (there === null) return;
    const held = writer.words.get(id);
    if (held === undefined || JSON.stringify(held.mine) === JSON.stringify(held.base))
      writer.words.set(id, { base: there.words, version: there.version, mine: there.words });
  }
  const held = writer.words.get(id);
  if (held === undefined) return;
  const field = dice.one(['customer', 'lookedBy', 'notes'] as const);
  let { base, version, mine } = held;
  mine = { ...mine, [field]: dice.often(10) ? '' : fresh() };
  writer.words.set(id, { base, version, mine });
  if (dice.often(30)) return;
  for (let tries = 0; tries < mostTries; tries += 1) {
    const reply = await writer.ask('cases.describe', { sheet: id, ...mine, madeAgainst: version });
    if (reply.ok) {
      writer.words.set(id, { base: mine, version: reply.value.version, mine });
      return acknowledge(its, `words ${id}`, mine);
    }
    if (reply.trouble.code === 'not-found') return void writer.words.delete(id);
    if (reply.trouble.code !== 'changed-since') throw new Error(reply.trouble.sentence);
    count.told += 1;
    const there = await lookAtWords(its, id);
    if (there === null) return void writer.words.delete(id);
    if (its.protocol === 'look') {
      const { merged, differences } = fieldsMerged(base, mine, there.words, () => dice.one(['mine', 'theirs']));
      const asked = differences.filter(({ changed }) => changed === 'both').length;
      count.merged += 1;
      count.decided += asked;
      mine = merged;
    }
    [base, version] = [there.words, there.version];
    writer.words.set(id, { base, version, mine });
    if (JSON.stringify(mine) === JSON.stringify(base)) return;
  }
};

const fieldsOf = ({ name, newPerDay, families, kinds }: CourseFields): CourseFields => ({ name, newPerDay, families, kinds });

const lookAtCourse = async (its: Step, id: string) => {
  const reply = await its.writer.ask('drills.courses', {});
  if (!reply.ok) throw new Error(reply.trouble.sentence);
  const there = reply.value.find((one) => one.id === id);
  if (there === undefined) return null;
  if (its.protocol === 'look') read(its, `course ${id}`, JSON.stringify(fieldsOf(there)));
  return { fields: fieldsOf(there), version: there.version as string };
};

const saveCourse = async (its: Step): Promise<void> => {
  const { writer, dice, count, courses, fresh } = its;
  if (courses.length < 2) {
    const fields: CourseFields = { name: fresh(), newPerDay: 5, families: null, kinds: null };
    const reply = await writer.ask('drills.saveCourse', { ...fields, madeAgainst: null });
    if (!reply.ok) throw new Error(reply.trouble.sentence);
    courses.push(reply.value.id);
    writer.courses.set(reply.value.id, { base: fields, version: reply.value.version, mine: fields });
    return acknowledge(its, `course ${reply.value.id}`, fields);
  }
  const id = dice.one(courses);
  if (!writer.courses.has(id) || dice.often(30)) {
    const there = await lookAtCourse(its, id);
    if (there !== null) writer.courses.set(id, { base: there.fields, version: there.version, mine: there.fields });
  }
  const held = writer.courses.get(id);
  if (held === undefined) return;
  let { base, version, mine } = held;
  mine = dice.often(50)
    ? { ...mine, name: fresh() }
    : { ...mine, newPerDay: dice.whole(0, 500), families: dice.often(50) ? null : [asId('petrel')] };
  for (let tries = 0; tries < mostTries; tries += 1) {
    const reply = await writer.ask('drills.saveCourse', { id, ...mine, madeAgainst: version });
    if (reply.ok) {
      writer.courses.set(id, { base: mine, version: reply.value.version, mine });
      return acknowledge(its, `course ${id}`, mine);
    }
    if (reply.trouble.code !== 'changed-since') throw new Error(reply.trouble.sentence);
    count.told += 1;
    const there = await lookAtCourse(its, id);
    if (there === null) return;
    if (its.protocol === 'look') {
      const { merged, differences } = fieldsMerged(base, mine, there.fields, () => dice.one(['mine', 'theirs']));
      count.merged += 1;
      count.decided += differences.filter(({ changed }) => changed === 'both').length;
      mine = merged;
    }
    [base, version] = [there.fields, there.version];
    writer.courses.set(id, { base, version, mine });
  }
};

/** A sheet goes with its case: whoever removes it has looked at both. */
const removeSheet = async (its: Step, id: string): Promise<void> => {
  const { writer, count, dice } = its;
  const opened = await look(its, id);
  if (opened === null || opened.whole === null) return;
  const words = await lookAtWords(its, id);
  if (words === null) return;
  // Somebody may have written between the two looks: the whole is what was looked at first.
  const reply = await writer.ask('sheets.remove', { id, madeAgainst: opened.whole });
  if (!reply.ok) {
    if (reply.trouble.code === 'not-found') return;
    if (reply.trouble.code !== 'changed-since') throw new Error(reply.trouble.sentence);
    count.told += 1;
    if (dice.often(50)) return;
    return removeSheet(its, id);
  }
  count.removed += 1;
  acknowledge(its, `sheet ${id}`, null);
  acknowledge(its, `words ${id}`, null);
  if (JSON.stringify(writer.sheets.get(id)?.mine) === JSON.stringify(writer.sheets.get(id)?.base?.sheet)) writer.sheets.delete(id);
  writer.words.delete(id);
};

/** What stands in the file, by thing, as text: by SQL of the test's own. */
const statesIn = async (watch: Connection, ids: readonly string[], courses: readonly string[]): Promise<ReadonlyMap<Thing, string>> => {
  const states = new Map<Thing, string>();
  const among = JSON.stringify([...ids, ...courses]);
  const rows = await watch.all<{ thing: string; state: string }>(
    `select 'sheet ' || id as thing, body as state from sheets where origin = 'own' and id in (select value from json_each(?1))
     union all
     select 'words ' || sheet, json_array(customer, looked_by, notes) from case_details as one
       where sheet in (select value from json_each(?1)) and n = (select max(n) from case_details where sheet = one.sheet)
     union all
     select 'course ' || id, json_array(name, new_per_day, families, kinds) from courses where id in (select value from json_each(?1))`,
    [among],
  );
  for (const { thing, state } of rows) states.set(thing, state);
  return states;
};

/** Tokens that went from one look at the file to the next without being read by whoever took them away. */
const lostBetween = (
  before: ReadonlyMap<Thing, string>,
  after: ReadonlyMap<Thing, string>,
  acknowledged: readonly Acknowledged[],
): string[] => {
  const lost: string[] = [];
  for (const thing of new Set([...before.keys(), ...after.keys()])) {
    const said = acknowledged.filter((one) => one.thing === thing);
    const [was, is] = [tokensIn(before.get(thing) ?? null), tokensIn(after.get(thing) ?? null)];
    // Two at once may have been written in either order; what is lost in neither is lost in none.
    const orders = said.length < 2 ? [said] : [said, [...said].reverse()];
    const found = orders
      .filter((order) => sameTokens(order.length === 0 ? was : tokensIn(order.at(-1)?.state ?? null), is))
      .map((order) => lostInOrder(was, order));
    if (found.length === 0) lost.push(`${thing} is as nobody has saved it`);
    else lost.push(...(found.find((one) => one.length === 0) ?? found[0] ?? []));
  }
  return lost;
};

const sameTokens = (a: ReadonlySet<string>, b: ReadonlySet<string>): boolean => a.size === b.size && [...a].every((one) => b.has(one));

const lostInOrder = (was: ReadonlySet<string>, order: readonly Acknowledged[]): string[] => {
  const lost: string[] = [];
  let there = was;
  for (const { writer, thing, state, seen } of order) {
    const then = tokensIn(state);
    for (const token of there) if (!then.has(token) && !seen.has(token)) lost.push(`${writer.name} took ${token} from ${thing} unread`);
    there = then;
  }
  return lost;
};

/** States that were acknowledged and stand in no entry of their case. */
const missingInHistory = async (
  watch: Connection,
  ids: readonly string[],
  kept: ReadonlyMap<Thing, readonly string[]>,
): Promise<string[]> => {
  const missing: string[] = [];
  for (const id of ids) {
    const rows = await watch.all<{ body: string }>('select body from case_entries where sheet = ?', [id]);
    const states = rows.map(({ body }) => [...tokensIn(body)].sort().join());
    for (const state of kept.get(`sheet ${id}`) ?? [])
      if (!states.includes([...tokensIn(state)].sort().join())) missing.push(`a saved state of sheet ${id} is not in its history`);
  }
  return missing;
};
