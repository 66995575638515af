import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Atlas } from '../../reasoner/index.ts';
import type { Pack } from '../atlas/pack.ts';
import { countsOf } from '../changes/counts.ts';
import { headOf } from '../changes/journal.ts';
import { saidUnder } from '../changes/own-words.ts';
import type { Door } from '../driver/door.ts';
import type { Reader } from '../driver/driver.ts';
import type { Plan } from '../driver/write-planned.ts';
import type { FitEngine } from '../graph/keep-fits.ts';
import { atlasOfPacks } from '../packs/atlas-of-packs.ts';
import { writePack } from '../packs/export.ts';
import { keepingFits } from '../packs/plan-change.ts';
import { groupBy } from '../plain/group-by.ts';
import { whyNotWritten } from '../plain/why-not.ts';
import type { Asked } from '../read/asked.ts';
import { done, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { atlasStood, entryAsOf, packsAsOf } from './as-of.ts';
import { calledIn } from './called-in.ts';
import { carriedBy } from './carry/carried-record.ts';
import { nothingCarried, type PlannedCarry, planCarry, planCarryBack } from './carry/plan-carry.ts';
import { whereText } from './entries.ts';
import { entrySeen } from './entry-seen.ts';
import { type Ground, packsOf, readGround } from './ground.ts';
import { changesIn, wholeChange } from './history.ts';
import { partAlone, readNarrowGround } from './narrow-ground.ts';
import { newOwnPack } from './own-pack.ts';
import { batchOfChecked, type Planned, type Setting, standingChecked } from './plan.ts';
import { ownPackOf, planEdits } from './plan-edits.ts';
import { planUndo } from './plan-undo.ts';
import { type KeptWord, planOwn, planWords } from './put-back-words.ts';
import type {
  ChangeEntry,
  ChangeMade,
  ChangeSeen,
  ChangeWhole,
  DisputeSeen,
  Edit,
  EditedList,
  EditFault,
  EntrySeen,
  HeadId,
  StoodAtlas,
  StoodEntry,
  UndoSeen,
} from './seen.ts';
import { alteredSeen, mostShown } from './seen-cells.ts';

export interface Saying {
  readonly who: string;
  readonly why: string;
  /** What the journal ended with when this was looked at. */
  readonly head: HeadId;
}

/** The shop's own words in the atlas (H1 to H4): edits looked at and made as one change, the history of all changes, and any of them undone. */
export interface ChangeShelf {
  /** What the journal ends with. */
  head(): Promise<Outcome<HeadId>>;
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
  const alongside = keepingFits(fitEngine);
  const setting = (own: string): Setting => ({ asked, now: now().toISOString(), alongside, fitEngine, own });
  const freshPack = (): Pack => newOwnPack(now().toISOString().slice(0, 10));

  /** Edits of the atlas as it stands. */
  const edited = async (reader: Reader, edits: readonly Edit[], warned: boolean) => {
    const ground = await readGround(reader);
    const own = ownPackOf(ground) ?? freshPack();
    return { ground, own: own.head.id, planned: await planEdits(reader, ground, edits, ground.head.id, own, setting(own.head.id), warned) };
  };
  const undone = async (reader: Reader, ground: Ground, change: number) => {
    const own = await ownIdFor(reader, ground, change);
    return { own, planned: await planUndo(reader, ground, change, setting(own)) };
  };
  const made = async (
    reader: Reader,
    ground: Ground,
    planned: Planned,
    own: string,
    entry: Parameters<typeof batchOfChecked>[3],
    carry = nothingCarried,
  ): Promise<Plan<ChangeMade> | null> => {
    const counts = countsIn(planned);
    const batch = await batchOfChecked(reader, ground, planned, entry, setting(own), carry);
    if (batch === 'not narrow') return null;
    return batch === null
      ? { batch: null, value: { change: null, head: ground.head.id, counts, carried: [] } }
      : { batch: batch.batch, value: { change: batch.change, head: batch.head.id, counts, carried: carry.seen } };
  };
  /** The same, over a ground that was read whole. */
  const madeWhole = async (...of: Parameters<typeof made>): Promise<Plan<ChangeMade>> => {
    const plan = await made(...of);
    if (plan === null) throw new Error('all of the atlas was read, and something of it is missing');
    return plan;
  };
  const carriedWith = (reader: Reader, ground: Ground, planned: Planned, edits: readonly Edit[]): Promise<PlannedCarry> =>
    planCarry(reader, edits, packsOf(ground), standingChecked(ground, planned));
  const carriedBack = async (reader: Reader, ground: Ground, planned: Planned, change: number): Promise<PlannedCarry> =>
    planCarryBack(reader, await carriedBy(reader, change), packsOf(ground), standingChecked(ground, planned));

  return {
    head: () => read(async (reader) => (await headOf(reader)).id),
    look: (edits) =>
      read(async (reader) => {
        const { ground, own, planned } = await edited(reader, edits, true);
        return seen(ground, planned, own, await carriedWith(reader, ground, planned, edits));
      }),
    make: (edits, { who, why, source, head }) => {
      // The id of a new pack is drawn once, however often the change is planned.
      let fresh: Pack | null = null;
      const entry = { kind: 'edited', who: orNull(who), why: orNull(why), source: orNull(source), undoes: null } as const;
      return write(async (reader) => {
        fresh ??= freshPack();
        const narrow = await readNarrowGround(reader, edits, head);
        if (narrow !== null) {
          const own = ownPackOf(narrow) ?? fresh;
          const planned = await planEdits(reader, narrow, edits, head, own, setting(own.head.id));
          // What is wrong is said of the whole.
          const plan = planned.faults.length > 0 ? null : await made(reader, narrow, planned, own.head.id, entry);
          if (plan !== null) return plan;
        }
        const ground = await readGround(reader);
        const own = ownPackOf(ground) ?? fresh;
        const planned = await planEdits(reader, ground, edits, head, own, setting(own.head.id));
        refuse(planned.faults);
        return madeWhole(reader, ground, planned, own.head.id, entry, await carriedWith(reader, ground, planned, edits));
      });
    },
    stood: (until) =>
      read(async (reader) => {
        const ground = await readGround(reader);
        return atlasStood(ground, await packsAsOf(reader, ground, until));
      }),
    stoodEntry: (until, list, id) => read(async (reader) => entryAsOf(reader, await readGround(reader), list, id, until)),
    writeStood: async (until, folder) => {
      const then = await read(async (reader) => packsAsOf(reader, await readGround(reader), until));
      if (!then.ok) return then;
      return tell(async () => {
        await mkdir(folder, { mode: 0o700 }).catch((error: unknown) => {
          throw new TroubleError(
            trouble('pack-cannot-write', folder, `The atlas was not written, for ${whyNotWritten(error)}: ${folder}. Nothing was changed.`),
          );
        });
        for (const [id, pack] of then.value) await writePack(pack, join(folder, id));
        return [...then.value.keys()];
      });
    },
    after: (edits) =>
      read(async (reader) => {
        const { ground, planned } = await edited(reader, edits, false);
        return atlasAfter(ground, planned);
      }),
    afterUndo: (change) =>
      read(async (reader) => {
        const ground = await readGround(reader);
        return atlasAfter(ground, (await undone(reader, ground, change)).planned);
      }),
    list: (before, limit, of) => read((reader) => changesIn(reader, before, limit, of)),
    one: (change) => read((reader) => wholeChange(reader, change)),
    lookUndo: (change) =>
      read(async (reader) => {
        const ground = await readGround(reader);
        const { own, planned } = await undone(reader, ground, change);
        return { ...seen(ground, planned, own, await carriedBack(reader, ground, planned, change)), disputes: planned.disputes };
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
        const { own, planned } = await undone(reader, ground, change);
        if (planned.disputes.length > 0 && !rest) throw new TroubleError(inTheWay(change, planned.disputes));
        refuse(planned.faults);
        const entry = { kind: 'undone', who: orNull(who), why: orNull(why), source: null, undoes: change } as const;
        return madeWhole(reader, ground, planned, own, entry, await carriedBack(reader, ground, planned, change));
      }),
    putBack: async (own, words) => {
      const marked = await write(async (reader) => planOwn(reader, own));
      if (!marked.ok) return marked;
      const refused: string[] = [];
      for (const [pack, of] of groupBy(words, (word) => word.pack)) {
        const put = await write(async (reader): Promise<Plan<string | null>> => {
          const ground = await readGround(reader);
          const planned = await planWords(ground, pack, of, setting(own ?? ''));
          if (typeof planned === 'string') return { batch: null, value: planned };
          const entry = { kind: 'edited', who: null, why: null, source: 'put back', undoes: null } as const;
          return { ...(await madeWhole(reader, ground, planned, own ?? '', entry)), value: null };
        });
        if (!put.ok) return put;
        if (put.value !== null) refused.push(put.value);
      }
      return done(refused);
    },
    entry: (list, id) =>
      read(async (reader) => {
        const alone = list === 'parts' ? await partAlone(reader, id) : null;
        if (alone === null) return entrySeen(await readGround(reader), list, id);
        const { row, rows, held } = alone;
        return entrySeen(
          { head: await headOf(reader), rows: rows.filter((each) => each === row), held: new Map([[row.id, held]]) },
          list,
          id,
        );
      }),
  };
};

const atlasAfter = (ground: Ground, planned: Planned): Atlas | null =>
  planned.faults.length > 0 ? null : atlasOfPacks([...standingChecked(ground, planned).values()]);

const orNull = (text: string): string | null => (text.trim() === '' ? null : text);

/** Several packs may hold one entry; it is counted once. */
const countsIn = ({ checked }: Planned) => countsOf(new Map(checked.flatMap(({ effect }) => [...effect])));

const seen = (ground: Ground, planned: Planned, own: string, carry: PlannedCarry): ChangeSeen => {
  const cells = planned.checked.flatMap(({ id, effect }) => {
    const held = ground.held.get(id);
    const said = held === undefined ? new Map() : saidUnder(ground.cellsOf(id), held.words);
    return alteredSeen(id, id === own, effect, (key) => said.get(key) ?? null);
  });
  const shown = cells.slice(0, mostShown);
  return {
    head: ground.head.id,
    counts: countsIn(planned),
    cells: shown,
    cellsInAll: cells.length,
    called: calledIn(
      planned.checked.map(({ effect }) => effect),
      shown,
    ),
    faults: planned.faults,
    warnings: planned.warnings,
    carried: planned.faults.length > 0 || planned.checked.length === 0 ? [] : carry.seen,
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

const inTheWay = (change: number, disputes: readonly DisputeSeen[]) => {
  const sentences = disputes.map(({ list, id, field, line }) => `${whereText(list, id, field, line)} was changed, or spoken of, later.`);
  return {
    ...trouble(
      'undo-disputed',
      `change ${change}`,
      `The change ${change} was not undone, for something later rests on it. ${sentences[0]}${disputes.length === 1 ? '' : ` So it is in ${disputes.length - 1} more ${disputes.length === 2 ? 'place' : 'places'}.`} The rest of it can be undone. Nothing was changed.`,
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
