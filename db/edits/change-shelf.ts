import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { eq } from 'drizzle-orm';
import type { Atlas } from '../../reasoner/index.ts';
import type { CellKey, Cells } from '../atlas/cell.ts';
import type { Named } from '../atlas/list.ts';
import type { Pack } from '../atlas/pack.ts';
import { cellsOf, packOf } from '../changes/cells-of.ts';
import { changeBetween } from '../changes/change.ts';
import { countsOf } from '../changes/counts.ts';
import { headOf } from '../changes/journal.ts';
import { saidUnder } from '../changes/own-words.ts';
import { readCell } from '../changes/word-rows.ts';
import type { Door } from '../driver/door.ts';
import type { Reader } from '../driver/driver.ts';
import { build, statementOf } from '../driver/statements.ts';
import type { Plan } from '../driver/write-planned.ts';
import { type FitEngine, fitStatements, readHeldFits } from '../graph/keep-fits.ts';
import { atlasOfPacks } from '../packs/atlas-of-packs.ts';
import { writePack } from '../packs/export.ts';
import type { Alongside } from '../packs/plan-change.ts';
import { reasonOf } from '../packs/read-files.ts';
import { groupBy } from '../plain/group-by.ts';
import type { Asked } from '../read/asked.ts';
import * as t from '../schema.ts';
import { done, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { entryAsOf, packsAsOf } from './as-of.ts';
import { isEdited, oneOf } from './entries.ts';
import { type Ground, packsOf, readGround } from './ground.ts';
import { changesIn, wholeChange } from './history.ts';
import { batchOfChecked, checkNext, type Planned, type Setting } from './plan.ts';
import { ownPackOf, planEdits } from './plan-edits.ts';
import { planUndo } from './plan-undo.ts';
import type {
  ChangeEntry,
  ChangeMade,
  ChangeSeen,
  ChangeWhole,
  Edit,
  EditedList,
  EditFault,
  EntrySeen,
  HeadId,
  StoodAtlas,
  StoodEntry,
  UndoSeen,
} from './seen.ts';
import { alteredSeen, cellSeen, mostShown } from './seen-cells.ts';

export interface Saying {
  readonly who: string;
  readonly why: string;
  /** What the journal ended with when this was looked at. */
  readonly head: HeadId;
}

/** The shop's own words in the atlas (H1 to H4): edits looked at and made as one change, the history of all changes, and any of them undone. */
export interface ChangeShelf {
  /** What edits would come to; nothing is written. */
  look(edits: readonly Edit[]): Promise<Outcome<ChangeSeen>>;
  /** Makes them as one change. Troubles: `edit-invalid` with every fault in `all`, `changed-since`. */
  make(edits: readonly Edit[], saying: Saying & { readonly source: string }): Promise<Outcome<ChangeMade>>;
  list(
    before: number | null,
    limit: number,
    of: { readonly list: EditedList; readonly id: string } | null,
  ): Promise<Outcome<readonly ChangeEntry[]>>;
  one(change: number): Promise<Outcome<ChangeWhole>>;
  lookUndo(change: number): Promise<Outcome<UndoSeen>>;
  /** Undoes a change, or with `rest` what nothing later rests on. Troubles: `not-found`, `undo-disputed` with what stands in the way in `all`, `changed-since`. */
  undo(change: number, rest: boolean, saying: Saying): Promise<Outcome<ChangeMade>>;
  /** The atlas as it stood at a time (ISO), the shop's words among it. */
  stood(until: string): Promise<Outcome<StoodAtlas>>;
  /** One entry as it stood then. */
  stoodEntry(until: string, list: EditedList, id: string): Promise<Outcome<StoodEntry>>;
  /** The same atlas as packs, each in a new folder of its own within a folder that is not there yet. */
  writeStood(until: string, folder: string): Promise<Outcome<readonly string[]>>;
  /** The atlas as it would be; null where the edits have faults. */
  after(edits: readonly Edit[]): Promise<Outcome<Atlas | null>>;
  /** The same of a change undone, what nothing later rests on. */
  afterUndo(change: number): Promise<Outcome<Atlas | null>>;
  /**
   * Puts words of the shop back over packs that were loaded anew, as after mending, whatever else the packs say by now.
   * @param own the pack of the shop's own entries, or null where there is none
   * Gives a sentence for each pack whose words no longer go together with it; those of packs that are not there are left out too.
   */
  putBack(own: string | null, words: readonly KeptWord[]): Promise<Outcome<readonly string[]>>;
  /** An entry and whose it is. */
  entry(list: EditedList, id: string): Promise<Outcome<EntrySeen>>;
}

export const changeShelf = (
  { read, write, tell, now }: Door,
  { asked, fitEngine }: { readonly asked: Asked; readonly fitEngine: FitEngine | undefined },
): ChangeShelf => {
  const alongside: Alongside | null =
    fitEngine === undefined ? null : async (reader, after) => fitStatements(await readHeldFits(reader), after, fitEngine);
  const setting = (own: string): Setting => ({ asked, now: now().toISOString(), alongside, own, lastOf: new Map() });
  const today = (): string => now().toISOString().slice(0, 10);

  const made = async (
    reader: Reader,
    ground: Ground,
    planned: Planned,
    own: string,
    entry: Parameters<typeof batchOfChecked>[3],
  ): Promise<Plan<ChangeMade>> => {
    const counts = countsIn(planned);
    const batch = await batchOfChecked(reader, ground, planned, entry, setting(own));
    return batch === null
      ? { batch: null, value: { change: null, head: ground.head.id, counts } }
      : { batch: batch.batch, value: { change: batch.change, head: batch.head.id, counts } };
  };

  return {
    look: (edits) =>
      read(async (reader) => {
        const ground = await readGround(reader);
        const own = ownPackOf(ground, today());
        return seen(
          ground,
          await planEdits(reader, ground, edits, ground.head.id, own, { ...setting(own.head.id), warned: true }),
          own.head.id,
        );
      }),
    make: (edits, { who, why, source, head }) => {
      // Its id is drawn once, however often the change is planned.
      let drawn: ReturnType<typeof ownPackOf> | null = null;
      return write(async (reader) => {
        const ground = await readGround(reader);
        const held = ownPackOf(ground, today());
        if (drawn === null || ground.rows.some(({ own }) => own)) drawn = held;
        const mine = drawn;
        const planned = await planEdits(reader, ground, edits, head, mine, setting(mine.head.id));
        refuse(planned.faults);
        return made(reader, ground, planned, mine.head.id, {
          kind: 'edited',
          who: orNull(who),
          why: orNull(why),
          source: orNull(source),
          undoes: null,
        });
      });
    },
    stood: (until) =>
      read(async (reader) => {
        const ground = await readGround(reader);
        const then = await packsAsOf(reader, ground, until);
        const cells = (packs: ReadonlyMap<string, Pack>): Cells =>
          new Map([...packs.values()].flatMap((pack) => [...cellsOf(pack, had(ground, pack))]));
        return {
          packs: [...then.values()].map(({ head, parts, models }) => ({
            id: head.id,
            title: head.title,
            edition: head.edition,
            parts: parts.length,
            models: models.length,
          })),
          since: countsOf(changeBetween(cells(then), cells(packsOf(ground)))).filter(({ of }) => of !== 'pack'),
        };
      }),
    stoodEntry: (until, list, id) => read(async (reader) => entryAsOf(reader, await readGround(reader), list, id, until)),
    writeStood: async (until, folder) => {
      const then = await read(async (reader) => packsAsOf(reader, await readGround(reader), until));
      if (!then.ok) return then;
      return tell(async () => {
        await mkdir(folder, { mode: 0o700 }).catch((error: unknown) => {
          throw new TroubleError(
            trouble('pack-cannot-write', folder, `The atlas was not written: ${reasonOf(error)}: ${folder}. Nothing was changed.`),
          );
        });
        for (const [id, pack] of then.value) await writePack(pack, join(folder, id));
        return [...then.value.keys()];
      });
    },
    after: (edits) =>
      read(async (reader) => {
        const ground = await readGround(reader);
        const own = ownPackOf(ground, today());
        return atlasAfter(ground, await planEdits(reader, ground, edits, ground.head.id, own, setting(own.head.id)));
      }),
    afterUndo: (change) =>
      read(async (reader) => {
        const ground = await readGround(reader);
        const own = await ownIdFor(reader, ground, change);
        return atlasAfter(ground, await planUndo(reader, ground, change, own, setting(own)));
      }),
    list: (before, limit, of) => read((reader) => changesIn(reader, before, limit, of)),
    one: (change) => read((reader) => wholeChange(reader, change)),
    lookUndo: (change) =>
      read(async (reader) => {
        const ground = await readGround(reader);
        const own = await ownIdFor(reader, ground, change);
        const planned = await planUndo(reader, ground, change, own, setting(own));
        return { ...seen(ground, planned, own), disputes: planned.disputes };
      }),
    undo: (change, rest, { who, why, head }) =>
      write(async (reader) => {
        const ground = await readGround(reader);
        if (ground.head.id !== head)
          throw new TroubleError(
            trouble(
              'changed-since',
              `change ${change}`,
              'The atlas was changed elsewhere since this was looked at, so nothing was undone. Look at it anew, then decide.',
            ),
          );
        const own = await ownIdFor(reader, ground, change);
        const planned = await planUndo(reader, ground, change, own, setting(own));
        if (planned.disputes.length > 0 && !rest) throw new TroubleError(inTheWay(change, planned.disputes));
        refuse(planned.faults);
        return made(reader, ground, planned, own, { kind: 'undone', who: orNull(who), why: orNull(why), source: null, undoes: change });
      }),
    putBack: async (own, words) => {
      const refused: string[] = [];
      const marked = await write(async (reader) => planOwn(reader, own));
      if (!marked.ok) return marked;
      for (const [pack, of] of groupBy(words, (word) => word.pack)) {
        const put = await write(async (reader) => {
          const ground = await readGround(reader);
          const held = ground.held.get(pack);
          if (held === undefined) {
            refused.push(`The atlas does not hold the pack “${pack}”, so ${of.length} words of the shop on it were left out.`);
            return { batch: null, value: null };
          }
          const cells = new Map(ground.cellsOf(pack));
          for (const { cell, own: is } of of) {
            const word = readCell(is);
            if (word === null) cells.delete(cell as CellKey);
            else cells.set(cell as CellKey, word);
          }
          const planned = await checkNext(ground, new Map([[pack, { pack: packOf(pack, cells) }]]), setting(own ?? ''));
          const [fault] = planned.faults;
          if (fault !== undefined) {
            refused.push(
              `What the shop says of the pack “${pack}” no longer goes together with it, and was left out (${of.length} words): ${fault.sentence}`,
            );
            return { batch: null, value: null };
          }
          return {
            ...(await made(reader, ground, planned, own ?? '', { kind: 'edited', who: null, why: null, source: 'put back', undoes: null })),
            value: null,
          };
        });
        if (!put.ok) return put;
      }
      return done(refused);
    },
    entry: (list, id) => read((reader) => entryIn(reader, list, id)),
  };
};

/** A row of the shop's words, as it is kept. */
export interface KeptWord {
  readonly pack: string;
  readonly cell: string;
  readonly own: string | null;
}

/** The pack of the shop's own entries is marked as that. */
const planOwn = async (reader: Reader, own: string | null): Promise<Plan<null>> => {
  const rows = await reader.orm.select({ id: t.packs.id, own: t.packs.own }).from(t.packs);
  const there = own !== null && rows.some((row) => row.id === own && !row.own);
  return {
    batch: there ? { statements: [statementOf(build.update(t.packs).set({ own: true }).where(eq(t.packs.id, own)))] } : null,
    value: null,
  };
};

/** Places as they are today, so that what only moved is told as that. */
const had =
  (ground: Ground, { head }: Pack) =>
  (key: CellKey): number | undefined =>
    ground.cellsOf(head.id).get(key)?.at;

const atlasAfter = (ground: Ground, { faults, checked }: Planned): Atlas | null => {
  if (faults.length > 0) return null;
  const packs = new Map([...ground.held].map(([id, { pack }]) => [id, pack]));
  for (const { id, after } of checked) {
    if (after === null) packs.delete(id);
    else packs.set(id, after.pack);
  }
  return atlasOfPacks([...packs.values()]);
};

const orNull = (text: string): string | null => (text.trim() === '' ? null : text);

/** Several packs may hold one entry; it is counted once. */
const countsIn = ({ checked }: Planned) => countsOf(new Map(checked.flatMap(({ effect }) => [...effect])));

const seen = (ground: Ground, planned: Planned, own: string): ChangeSeen => {
  const cells = planned.checked.flatMap(({ id, effect }) => {
    const held = ground.held.get(id);
    const said = held === undefined ? new Map() : saidUnder(ground.cellsOf(id), held.words);
    return alteredSeen(id, id === own, effect, (key) => said.get(key) ?? null);
  });
  return {
    head: ground.head.id,
    counts: countsIn(planned),
    cells: cells.slice(0, mostShown),
    cellsInAll: cells.length,
    faults: planned.faults,
    warnings: planned.warnings,
  };
};

const refuse = (faults: readonly EditFault[]): void => {
  const [first] = faults;
  if (first === undefined) return;
  const rest = faults.length === 1 ? first.sentence : `${faults.length} faults were found. The first: ${first.sentence}`;
  throw new TroubleError({
    ...trouble('edit-invalid', placeOf(first), `The change was not made: ${rest} Nothing was changed.`),
    all: faults.map((fault) => trouble('edit-invalid', placeOf(fault), fault.sentence)),
  });
};

const placeOf = ({ list, id, field }: EditFault): string => [list, id, field].filter((step) => step !== null).join('/');

const inTheWay = (
  change: number,
  disputes: readonly { readonly list: string; readonly id: string; readonly field: string | null; readonly line: string | null }[],
) => {
  const sentences = disputes.map(
    ({ list, id, field, line }) =>
      `${[`${oneOf(list)} “${id}”`, field, line].filter((step) => step !== null).join(', ')} was changed, or spoken of, later.`,
  );
  return {
    ...trouble(
      'undo-disputed',
      `change ${change}`,
      `The change ${change} was not undone, for something later rests on it: ${sentences[0]}${disputes.length === 1 ? '' : ` (and ${disputes.length - 1} more)`} The rest of it can be undone. Nothing was changed.`,
    ),
    all: disputes.map(({ list, id }, index) => trouble('undo-disputed', `${list}/${id}`, sentences[index] as string)),
  };
};

/** The shop's own pack, or, where it was taken out, the one that was so when the change was made. */
const ownIdFor = async (reader: Reader, ground: Ground, change: number): Promise<string> => {
  const row = ground.rows.find(({ own }) => own);
  if (row !== undefined) return row.id;
  const [found] = await reader.all<{ origin: string }>(
    `select origin from journal where (n = ? or together = ?) and origin glob 'pack shop-*' limit 1`,
    [change, change],
  );
  return found?.origin.replace(/^pack /, '') ?? '';
};

const entryIn = async (reader: Reader, list: EditedList, id: string): Promise<EntrySeen> => {
  const ground = await readGround(reader);
  const holders = ground.rows.flatMap((row) => {
    const pack = ground.held.get(row.id)?.pack as unknown as Readonly<Record<string, readonly Named[] | undefined>>;
    const entry = isEdited(list) ? pack[list]?.find((each) => each.id === id) : undefined;
    return entry === undefined ? [] : [{ row, entry }];
  });
  const [first] = holders;
  if (first === undefined) throw new TroubleError(trouble('not-found', `${list}/${id}`, `The atlas has no ${oneOf(list)} “${id}”.`));
  const rows = await reader.orm.select().from(t.ownWords).where(eq(t.ownWords.pack, first.row.id));
  return {
    head: (await headOf(reader)).id,
    entry: first.entry as unknown as Readonly<Record<string, unknown>>,
    packs: holders.map(({ row }) => ({ id: row.id, title: row.title, own: row.own })),
    words: rows.flatMap(({ pack, cell, own, said }) => {
      const where = cellSeen(cell as never);
      const is = (text: string | null) => (text === null ? null : (JSON.parse(text) as [EntrySeen['words'][number]['own']])[0]);
      return where.list === list && where.id === id ? [{ pack, field: where.field, line: where.line, own: is(own), said: is(said) }] : [];
    }),
  };
};
