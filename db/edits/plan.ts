import { type Cells, keyOf } from '../atlas/cell.ts';
import { emptyAtlas, type Pack } from '../atlas/pack.ts';
import { cellsOf } from '../changes/cells-of.ts';
import { changeBetween, type Effect } from '../changes/change.ts';
import type { Entry } from '../changes/journal.ts';
import { noWords, saidUnder, wordsBetween } from '../changes/own-words.ts';
import type { Batch, Reader } from '../driver/driver.ts';
import { atlasOfPacks } from '../packs/atlas-of-packs.ts';
import { canonicalText, contentOfPack, hashOfPack } from '../packs/canonical.ts';
import { warningsIn } from '../packs/findings/table.ts';
import { saidPack, stateOfHeld } from '../packs/held.ts';
import type { State } from '../packs/pack-rows.ts';
import { type Alongside, batchOf, nothingAhead, type PlannedChange, planPackChange } from '../packs/plan-change.ts';
import { inspected, readFiles } from '../packs/read.ts';
import { filesOf } from '../packs/read-files.ts';
import { shapeFaults } from '../packs/shape-faults.ts';
import type { Asked } from '../read/asked.ts';
import type * as t from '../schema.ts';
import { editFault } from './entries.ts';
import { faultsOfPack, warningsOfEdits } from './faults-of-pack.ts';
import type { Ground } from './ground.ts';
import { editionAfter, leaningOf } from './own-pack.ts';
import type { EditFault, Suspicious } from './seen.ts';

/** What a pack is to be: what is reasoned over of it, and what it says itself where that is to be another than today. Null: gone. */
export type Next = ReadonlyMap<string, { readonly pack: Pack; readonly said?: Pack } | null>;

export interface Setting {
  readonly asked: Asked;
  /** ISO time. */
  readonly now: string;
  readonly alongside: Alongside | null;
  /** The id of the shop's own pack. */
  readonly own: string;
  /** The last edit of each thing, by `list id`. */
  readonly lastOf: ReadonlyMap<string, number>;
  /** Whether what is only suspicious of the edited entries is looked for. */
  readonly warned?: boolean;
}

type PackRow = typeof t.packs.$inferSelect;

/** One pack as a change leaves it, checked. */
interface Checked {
  readonly id: string;
  readonly before: State | null;
  readonly after: (State & { readonly row: typeof t.packs.$inferInsert }) | null;
  readonly effect: Effect;
}

export interface Planned {
  readonly faults: readonly EditFault[];
  readonly warnings: readonly Suspicious[];
  /** Of each pack that is altered, in order. */
  readonly checked: readonly Checked[];
}

/** What packs come to, each held against all others as they will stand. */
export const checkNext = async (ground: Ground, next: Next, { asked, now, own, lastOf, warned }: Setting): Promise<Planned> => {
  const today = now.slice(0, 10);
  const standing = new Map([...ground.held].map(([id, { pack }]) => [id, pack]));
  for (const [id, to] of next) {
    if (to === null) standing.delete(id);
    else standing.set(id, to.pack);
  }
  const faults: EditFault[] = [];
  const warnings: Suspicious[] = [];
  const checked: Checked[] = [];
  const others = (but: string) => [...standing].flatMap(([id, pack]) => (id === but ? [] : [pack]));
  const inspect = async (id: string, pack: Pack): Promise<Pack | null> => {
    const shapes = shapeFaults(pack);
    if (shapes.length > 0) {
      for (const { list, id: of, field, found, expected } of shapes)
        faults.push(editFault(lastOf.get(`${list} ${of}`) ?? null, list, of, field, found, expected));
      return null;
    }
    const texts = canonicalText(pack);
    const read = await readFiles(
      filesOf(`pack ${id}`, texts),
      { ...asked, beside: async () => atlasOfPacks(others(id)) },
      async () => emptyAtlas,
    );
    const sound = inspected(read, `pack ${id}`);
    if (!sound.ok) {
      faults.push(...faultsOfPack(sound.trouble, pack, texts, lastOf));
      return null;
    }
    if (warned === true && next.has(id)) warnings.push(...warningsOfEdits(warningsIn(read, asked), pack, texts, lastOf));
    return sound.value.pack;
  };
  for (const [id, to] of next) {
    const held = ground.held.get(id);
    const before = held === undefined ? null : stateOfHeld(held);
    if (to === null) {
      checked.push({ id, before, after: null, effect: changeBetween(before?.cells ?? new Map(), new Map()) });
      continue;
    }
    const leaning = id === own ? withLeaning(to.pack, others(id)) : to.pack;
    const read = await inspect(id, leaning);
    if (read === null) continue;
    const after = stateOf(id, read, to.said, ground, own, today, now);
    const effect = changeBetween(before?.cells ?? new Map(), after.cells);
    if (effect.size > 0 || after.words !== before?.words) checked.push({ id, before, after, effect });
  }
  // Where something goes, those that say nothing else may be left speaking of nothing.
  if (checked.some(({ effect }) => [...effect.values()].some(({ after }) => after === null)))
    for (const [id, pack] of standing) {
      if (!next.has(id)) await inspect(id, pack);
      const missing = pack.head.leansOn?.find((leaned) => !standing.has(leaned));
      if (missing !== undefined) faults.push(editFault(null, 'pack', missing, null, 'nothing', `this pack, which “${id}” leans on`));
    }
  return { faults, warnings, checked: checked.filter(({ effect, before, after }) => effect.size > 0 || wordsDiffer(before, after)) };
};

const wordsDiffer = (before: State | null, after: State | null): boolean =>
  JSON.stringify([...(before?.words ?? [])]) !== JSON.stringify([...(after?.words ?? [])]);

const withLeaning = (pack: Pack, others: readonly Pack[]): Pack => {
  const { leansOn: _before, ...head } = pack.head;
  const leansOn = leaningOf(pack, others);
  return { ...pack, head: leansOn.length === 0 ? head : { ...head, leansOn } };
};

const edition = keyOf('pack', 'edition');

const stateOf = (
  id: string,
  read: Pack,
  saidNow: Pack | undefined,
  ground: Ground,
  own: string,
  today: string,
  now: string,
): NonNullable<Checked['after']> => {
  const held = ground.held.get(id);
  const row = ground.rows.find((each) => each.id === id);
  const were = ground.cellsOf(id);
  const saidWere = held === undefined ? were : saidUnder(were, held.words);
  // What comes back, comes back to its place.
  const cells = cellsOf(read, (key) => were.get(key)?.at ?? saidWere.get(key)?.at);
  if (id === own) {
    const was = held?.pack.head.edition;
    const pack: Pack = was === undefined ? read : { ...read, head: { ...read.head, edition: editionAfter(was, today) } };
    // The edition goes with every change, and is none by itself.
    const same: Cells = was === undefined ? cells : new Map([...cells, [edition, { is: was }]]);
    return { pack, cells: same, words: noWords, row: rowOf(pack, pack, row, now, true) };
  }
  const said = saidNow ?? (held === undefined ? read : saidPack(held));
  const saidCells = saidNow === undefined ? saidWere : cellsOf(said, (key) => cells.get(key)?.at ?? saidWere.get(key)?.at);
  const words = wordsBetween(saidCells, cells);
  return { pack: read, cells, words, row: rowOf(read, said, row, row?.loadedAt ?? now, false) };
};

/** A signature stands as long as the pack says what was signed. */
const rowOf = (pack: Pack, said: Pack, was: PackRow | undefined, loadedAt: string, own: boolean): typeof t.packs.$inferInsert => {
  const { format: _format, version: _version, leansOn = null, licence = null, by = null, ...head } = said.head;
  const texts = canonicalText(said);
  const hash = hashOfPack(texts);
  const signed = was?.hash === hash ? { signer: was.signer, signature: was.signature } : { signer: null, signature: null };
  return {
    ...head,
    licence,
    by,
    leansOn,
    ...signed,
    hash,
    content: contentOfPack(pack === said ? texts : canonicalText(pack)),
    loadedAt,
    own,
  };
};

/** The batch of a change that was checked and has no faults, and what it is called; null where it alters nothing. */
export const batchOfChecked = async (
  reader: Reader,
  ground: Ground,
  { checked }: Planned,
  entry: Pick<Entry, 'kind' | 'who' | 'why' | 'source' | 'undoes'>,
  { now, alongside }: Setting,
): Promise<{ readonly batch: Batch; readonly change: number; readonly head: PlannedChange['ahead']['head'] } | null> => {
  if (checked.length === 0) return null;
  const standing = new Map([...ground.held].map(([id, { pack }]) => [id, pack]));
  let ahead = await nothingAhead(reader);
  const change = ahead.head.n + 1;
  const planned: PlannedChange[] = [];
  for (const { id, before, after } of checked) {
    const plan = await planPackChange(reader, ahead, {
      pack: id,
      before,
      after,
      others: [...standing].flatMap(([other, pack]) => (other === id ? [] : [pack])),
      entry: { ...entry, at: now, origin: `pack ${id}`, together: planned.length === 0 ? null : change },
      needed: null,
      step: () => undefined,
    });
    planned.push(plan);
    ahead = plan.ahead;
    if (after === null) standing.delete(id);
    else standing.set(id, after.pack);
  }
  const also = alongside === null ? [] : await alongside(reader, atlasOfPacks([...standing.values()]));
  return { batch: batchOf(planned, also, () => undefined), change, head: ahead.head };
};
