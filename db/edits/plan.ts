import { type CellKey, type Cells, keyOf, stepsOf } from '../atlas/cell.ts';
import type { Pack } from '../atlas/pack.ts';
import { cellsOf, hadIn } from '../changes/cells-of.ts';
import { type Altered, changeBetween, type Effect } from '../changes/change.ts';
import type { Entry } from '../changes/journal.ts';
import { noWords, saidUnder, wordsBetween } from '../changes/own-words.ts';
import type { Batch, Reader, Statement } from '../driver/driver.ts';
import type { FitEngine } from '../graph/keep-fits.ts';
import { fitsOfChanged } from '../graph/move-fits.ts';
import { atlasOfPacks } from '../packs/atlas-of-packs.ts';
import { canonicalText, hashOfPack } from '../packs/canonical.ts';
import { contentMoved, contentOfPack, isSum } from '../packs/content.ts';
import { warningsIn } from '../packs/findings/table.ts';
import { leaningOf } from '../packs/leaning-of.ts';
import type { State } from '../packs/pack-rows.ts';
import { type Alongside, batchOf, nothingAhead, type PlannedChange, planPackChange } from '../packs/plan-change.ts';
import { readAgain } from '../packs/read-again.ts';
import { type PackRow, rowOfPack } from '../packs/row-of-pack.ts';
import { unsigned } from '../packs/signed.ts';
import type { Asked } from '../read/asked.ts';
import { nothingCarried, type PlannedCarry } from './carry/plan-carry.ts';
import { editFault } from './entries.ts';
import { faultsOfPack, warningsOfEdits } from './faults-of-pack.ts';
import { type Ground, packsOf } from './ground.ts';
import { editionAfter } from './own-pack.ts';
import type { EditFault, Suspicious } from './seen.ts';

/** What a pack is to be: what is reasoned over of it, and what it says itself where that is to be another than today. Null: gone. */
export type Next = ReadonlyMap<string, { readonly pack: Pack; readonly said?: Pack } | null>;

export interface Setting {
  readonly asked: Asked;
  /** ISO time. */
  readonly now: string;
  readonly alongside: Alongside | null;
  readonly fitEngine: FitEngine | undefined;
  /** The id of the shop's own pack. */
  readonly own: string;
}

/** Of which edits packs came. */
interface EditsOf {
  /** The last edit of each thing, by `list id`. */
  readonly lastOf: ReadonlyMap<string, number>;
  /** Whether what is only suspicious of the edited entries is looked for. */
  readonly warned: boolean;
}

/** A pack after a change. */
interface After extends State {
  /** What it says itself; null where that is what it said before. */
  readonly said: Pack | null;
}

/** One pack as a change leaves it, checked. */
interface Checked {
  readonly id: string;
  readonly before: State | null;
  readonly after: After | null;
  readonly effect: Effect;
}

export interface Planned {
  readonly faults: readonly EditFault[];
  readonly warnings: readonly Suspicious[];
  /** Of each pack that is altered, in order. */
  readonly checked: readonly Checked[];
}

/** All packs of the atlas as they will stand. */
export const standingAfter = (ground: Ground, next: ReadonlyMap<string, { readonly pack: Pack } | null>): Map<string, Pack> => {
  const standing = new Map(packsOf(ground));
  for (const [id, to] of next) {
    if (to === null) standing.delete(id);
    else standing.set(id, to.pack);
  }
  return standing;
};

/** The same, of packs that were checked. */
export const standingChecked = (ground: Ground, { checked }: Planned): Map<string, Pack> =>
  standingAfter(ground, new Map(checked.map(({ id, after }) => [id, after])));

/** What packs come to, each held against all others as they will stand. */
export const checkNext = async (
  ground: Ground,
  next: Next,
  { asked, now, own }: Setting,
  { lastOf, warned }: EditsOf = { lastOf: new Map(), warned: false },
): Promise<Planned> => {
  const standing = standingAfter(ground, next);
  const faults: EditFault[] = [];
  const warnings: Suspicious[] = [];
  const checked: Checked[] = [];
  const inspect = async (id: string, pack: Pack): Promise<Pack | null> => {
    const around = ground.narrow === null ? [] : [ground.narrow.around];
    const again = await readAgain(pack, [...allBut(standing, id), ...around], asked);
    if ('shapes' in again) {
      for (const { list, id: of, field, found, expected } of again.shapes)
        faults.push(editFault(lastOf.get(`${list} ${of}`) ?? null, list, of, field, found, expected));
      return null;
    }
    const { texts, read, sound } = again;
    if (!sound.ok) {
      faults.push(...faultsOfPack(sound.trouble, pack, texts, lastOf));
      return null;
    }
    if (warned && next.has(id)) warnings.push(...warningsOfEdits(warningsIn(read, asked), pack, texts, lastOf));
    return sound.value.pack;
  };
  for (const [id, to] of next) {
    const before = ground.stateOf(id);
    let after: After | null = null;
    if (to !== null) {
      const read = await inspect(id, id === own ? withLeaning(to.pack, allBut(standing, id)) : to.pack);
      if (read === null) continue;
      after = id === own ? ownAfter(read, before, now) : othersAfter(read, to.said ?? null, before);
    }
    const effect = changeBetween(before?.cells ?? new Map(), after?.cells ?? new Map());
    if (effect.size > 0 || wordsDiffer(before, after)) checked.push({ id, before, after, effect });
  }
  // Where something goes, those that say nothing else may be left speaking of nothing.
  if (checked.some(({ effect }) => [...effect].some(([key, altered]) => mayLeave(key, altered))))
    for (const [id, pack] of standing) {
      if (!next.has(id)) await inspect(id, pack);
      const missing = pack.head.leansOn?.find((leaned) => !standing.has(leaned));
      if (missing !== undefined) faults.push(editFault(null, 'pack', missing, null, 'nothing', `this pack, which “${id}” leans on`));
    }
  return { faults, warnings, checked };
};

/** Whether an entry of another pack may be left without what it rests on: something goes, a part that named a model does no more, or a plate no longer counts. */
const mayLeave = (key: CellKey, { before, after }: Altered): boolean => {
  const [list, , field] = stepsOf(key);
  // Of a part others speak by its id alone.
  if (list === 'parts' && field !== undefined) return false;
  return after === null || (before !== null && (list === 'allowed' || (list === 'makers' && field === 'plateRule')));
};

const allBut = (packs: ReadonlyMap<string, Pack>, but: string): Pack[] => [...packs].flatMap(([id, pack]) => (id === but ? [] : [pack]));

const wordsDiffer = (before: State | null, after: State | null): boolean => {
  const text = (state: State | null) => JSON.stringify([...(state?.words ?? [])].sort(([a], [b]) => (a < b ? -1 : 1)));
  return text(before) !== text(after);
};

const withLeaning = (pack: Pack, others: readonly Pack[]): Pack => {
  const { leansOn: _before, ...head } = pack.head;
  const leansOn = leaningOf(pack, others);
  return { ...pack, head: leansOn.length === 0 ? head : { ...head, leansOn } };
};

const edition = keyOf('pack', 'edition');

/** The shop's own pack says what is reasoned over of it. Its edition goes with every change, and is none by itself. */
const ownAfter = (read: Pack, before: State | null, now: string): After => {
  const cells = cellsOf(read, before === null ? undefined : hadIn(before.cells));
  if (before === null) return { pack: read, cells, words: noWords, said: read };
  const was = before.pack.head.edition;
  const pack = { ...read, head: { ...read.head, edition: editionAfter(was, now.slice(0, 10)) } };
  return { pack, cells: new Map([...cells, [edition, { is: was }]]), words: noWords, said: pack };
};

/** Of any other pack what is reasoned over, and what it says itself under that. What comes back, comes back to its place. */
const othersAfter = (read: Pack, said: Pack | null, before: State | null): After => {
  const were = before?.cells ?? new Map();
  const saidWere = before === null ? were : saidUnder(were, before.words);
  const had = (cells: Cells) => (key: CellKey) => cells.get(key)?.at ?? saidWere.get(key)?.at;
  const cells = cellsOf(read, had(were));
  if (said === null && before !== null) return { pack: read, cells, words: wordsBetween(saidWere, cells), said: null };
  const says = said ?? read;
  return { pack: read, cells, words: wordsBetween(cellsOf(says, had(cells)), cells), said: says };
};

/** The row a pack is kept by after a change. A signature stands as long as the pack says what was signed. */
const rowAfter = (id: string, { pack, said }: After, before: State | null, ground: Ground, { own, now }: Setting): PackRow => {
  const was = ground.rows.find((row) => row.id === id);
  if (said === null && was !== undefined) {
    const moved = ground.narrow !== null && isSum(was.content) ? contentMoved(was.content, before?.pack.parts ?? [], pack.parts) : null;
    return { ...was, content: moved ?? contentOfPack(pack) };
  }
  const says = said ?? pack;
  const hash = hashOfPack(canonicalText(says));
  const { signer, signature } = was?.hash === hash ? was : unsigned;
  const isOwn = id === own;
  return rowOfPack({ head: says.head, hash }, contentOfPack(pack), {
    ...{ signer, signature, own: isOwn },
    loadedAt: isOwn ? now : (was?.loadedAt ?? now),
  });
};

/**
 * The batch of a change that was checked and has no faults, and what it is called; null where it alters nothing. Of a narrow ground it may be that what is kept
 * alongside cannot be made: then the whole must be read.
 */
export const batchOfChecked = async (
  reader: Reader,
  ground: Ground,
  { checked }: Planned,
  entry: Pick<Entry, 'kind' | 'who' | 'why' | 'source' | 'undoes'>,
  setting: Setting,
  carry: PlannedCarry = nothingCarried,
): Promise<{ readonly batch: Batch; readonly change: number; readonly head: PlannedChange['ahead']['head'] } | 'not narrow' | null> => {
  if (checked.length === 0) return null;
  const standing = new Map(packsOf(ground));
  let ahead = await nothingAhead(reader, { head: ground.head, numbering: ground.narrow?.numbering });
  const change = ahead.head.n + 1;
  const planned: PlannedChange[] = [];
  for (const { id, before, after } of checked) {
    const plan = await planPackChange(reader, ahead, {
      pack: id,
      before,
      after: after === null ? null : { ...after, row: rowAfter(id, after, before, ground, setting) },
      others: allBut(standing, id),
      entry: { ...entry, at: setting.now, origin: `pack ${id}`, together: planned.length === 0 ? null : change },
      needed: null,
      step: () => undefined,
    });
    planned.push(plan);
    ahead = plan.ahead;
    if (after === null) standing.delete(id);
    else standing.set(id, after.pack);
  }
  const also = await alongsideOf(reader, ground, checked, standing, setting);
  if (also === null) return 'not narrow';
  const batch = batchOf(planned, [...carry.statements(change), ...also], () => undefined);
  return { batch: { ...batch, guards: [...(batch.guards ?? []), ...carry.guards] }, change, head: ahead.head };
};

const alongsideOf = async (
  reader: Reader,
  { narrow }: Ground,
  checked: Planned['checked'],
  standing: ReadonlyMap<string, Pack>,
  { alongside, fitEngine }: Setting,
): Promise<Iterable<Statement> | null> => {
  if (alongside === null || fitEngine === undefined) return [];
  if (narrow === null) return await alongside(reader, atlasOfPacks([...standing.values()]));
  const [{ before, after }] = checked as readonly [Checked];
  const [[was], [is]] = [before?.pack.parts ?? [], after?.pack.parts ?? []];
  return was === undefined || is === undefined ? null : await fitsOfChanged(reader, was, is, fitEngine);
};
