import { type CellKey, type Cells, stepsOf } from '../atlas/cell.ts';
import type { Pack } from '../atlas/pack.ts';
import { cellSeen } from '../changes/cell-seen.ts';
import { packOf } from '../changes/cells-of.ts';
import { type Altered, applyTo, type Dispute, type Effect, entryOf, rebaseOnto, reverse } from '../changes/change.ts';
import { effectOf } from '../changes/journal.ts';
import { isSaid, noWords, overOf, saidBy, saidCells, saidUnder, underOf, wordsIn } from '../changes/own-words.ts';
import type { Reader } from '../driver/driver.ts';
import { missingIn } from '../packs/references.ts';
import { groupBy } from '../plain/group-by.ts';
import { oneOf } from './entries.ts';
import { type Ground, packOfOrigin } from './ground.ts';
import { entriesOf } from './history.ts';
import { checkNext, type Next, type Planned, type Setting, standingAfter } from './plan.ts';
import type { DisputeSeen } from './seen.ts';

export interface PlannedUndo extends Planned {
  /** What something later rests on, and is therefore left as it is. */
  readonly disputes: readonly DisputeSeen[];
}

/** The inverse of an entry of the change. */
interface Inverse {
  readonly pack: string;
  readonly effect: Effect;
}

/**
 * A change undone in the atlas as it stands: what nothing later rests on. A cell somebody has changed since is left, and so is an entry that something later speaks of.
 * Throws `not-found`.
 */
export const planUndo = async (reader: Reader, ground: Ground, change: number, setting: Setting): Promise<PlannedUndo> => {
  const { own } = setting;
  const entries = await entriesOf(reader, change);
  const ofPacks = await isOfPacks(reader, entries[0]);
  const undone: Inverse[] = [];
  for (const { n, origin } of [...entries].reverse())
    undone.push({ pack: packOfOrigin(origin), effect: reverse(await effectOf(reader, n)) });
  const kept: Kept = new Map();
  for (;;) {
    const { next, disputes } = undoneOf(ground, undone, { own, ofPacks }, kept);
    // Whatever stays may speak of more that would go.
    if (keepWhatWasChanged(disputes, undone, kept) || keepWhatIsSpokenOf([...standingAfter(ground, next).values()], undone, kept)) continue;
    return { ...(await checkNext(ground, next, setting)), disputes: disputes.map((dispute) => disputeSeen(dispute, own)) };
  }
};

/** Entries that would go and stay, by pack, with what was changed of each since; nothing where something later speaks of it. */
type Kept = Map<string, Map<CellKey, readonly Dispute[]>>;

interface PackDispute extends Dispute {
  readonly pack: string;
}

/** Whether a change put packs in or took them out, or undid one that did: then what a pack itself says is brought back, where an edit's undoing takes back the shop's word. */
const isOfPacks = async (reader: Reader, { kind, undoes }: { readonly kind: string; readonly undoes: number | null }): Promise<boolean> => {
  if (undoes === null) return kind === 'pack loaded' || kind === 'pack removed';
  const [first] = await entriesOf(reader, undoes);
  return isOfPacks(reader, first);
};

/** An entry of which something was changed since stays whole. Whether there is any such thing that would go. */
const keepWhatWasChanged = (disputes: readonly PackDispute[], undone: readonly Inverse[], kept: Kept): boolean => {
  let more = false;
  for (const { pack, effect } of undone)
    for (const [entry, of] of groupBy(
      disputes.filter((dispute) => dispute.pack === pack),
      ({ key }) => entryOf(key),
    ))
      if (effect.get(entry)?.after === null) more = keep(kept, pack, entry, of) || more;
  return more;
};

/** What would go, though packs would still speak of it, stays from now on, a model with what may sit in it. Whether there is any such thing. */
const keepWhatIsSpokenOf = (standing: readonly Pack[], undone: readonly Inverse[], kept: Kept): boolean => {
  const spokenOf = missingIn(standing);
  let more = false;
  for (const { pack, effect } of undone)
    for (const [key, { after }] of effect) {
      if (key !== entryOf(key) || after !== null || isSaid(key)) continue;
      const [list, id] = stepsOf(key);
      if (spokenOf.has(`${list === 'allowed' ? 'model' : oneOf(list)} ${id}`)) more = keep(kept, pack, key, []) || more;
    }
  return more;
};

const keep = (kept: Kept, pack: string, entry: CellKey, changed: readonly Dispute[]): boolean => {
  const of = kept.get(pack) ?? new Map();
  kept.set(pack, of);
  if (of.has(entry)) return false;
  of.set(entry, changed);
  return true;
};

const undoneOf = (
  ground: Ground,
  undone: readonly Inverse[],
  { own, ofPacks }: { readonly own: string; readonly ofPacks: boolean },
  kept: Kept,
): { readonly next: Next; readonly disputes: readonly PackDispute[] } => {
  const states = new Map<string, Cells>();
  const disputes: PackDispute[] = [];
  const wholly = new Set<string>();
  for (const { pack, effect } of undone) {
    const held = ground.held.get(pack);
    const state = states.get(pack) ?? (held === undefined ? new Map() : new Map([...ground.cellsOf(pack), ...saidCells(held.words)]));
    // Of the shop's own pack, as long as it stands, the head is written by every change anew.
    const whole = ofPacks && (pack !== own || held === undefined);
    if (whole) wholly.add(pack);
    if (held === undefined && !whole) {
      // The pack was taken out since, and nothing is left of it to be edited.
      for (const [key, { before, after }] of edited(effect, state)) disputes.push({ pack, key, before, after, present: null });
      continue;
    }
    const stay = kept.get(pack) ?? new Map<CellKey, readonly Dispute[]>();
    // Of a pack that something stays of, so does what it says of itself.
    const [left, stays] = parted(whole ? effect : edited(effect, state), (key, { after }) => {
      const of = isSaid(key) ? overOf(key) : key;
      return stay.has(entryOf(of)) || (stay.size > 0 && after === null && stepsOf(of)[0] === 'pack');
    });
    const rebased = rebaseOnto(left, state);
    states.set(pack, applyTo(state, rebased.effect));
    const spokenOf = [...stays].flatMap(([key, { before, after }]): readonly Dispute[] => {
      if (key !== entryOf(key) || stepsOf(key)[0] === 'pack') return [];
      const changed = stay.get(key) ?? [];
      return changed.length > 0 ? changed : [{ key, before, after, present: state.get(key) ?? null }];
    });
    for (const dispute of [...rebased.disputes, ...spokenOf]) if (!isSaid(dispute.key)) disputes.push({ ...dispute, pack });
  }
  const next = new Map<string, { readonly pack: ReturnType<typeof packOf>; readonly said?: ReturnType<typeof packOf> } | null>();
  for (const [id, state] of [...states].sort(([a], [b]) => Number(b === own) - Number(a === own) || (a < b ? -1 : 1))) {
    const cells = new Map([...state].filter(([key]) => !isSaid(key)));
    if (cells.size === 0) next.set(id, null);
    else if (wholly.has(id))
      next.set(id, { pack: packOf(id, cells), said: packOf(id, saidUnder(cells, id === own ? noWords : wordsIn(state))) });
    else next.set(id, { pack: packOf(id, cells) });
  }
  return { next, disputes };
};

const disputeSeen = ({ pack, key, before, present, after }: PackDispute, own: string): DisputeSeen => ({
  pack,
  own: pack === own,
  ...cellSeen(key),
  before: before?.is ?? null,
  present: present?.is ?? null,
  after: after?.is ?? null,
});

const parted = (effect: Effect, stays: (key: CellKey, altered: Altered) => boolean): [Effect, Effect] => {
  const [left, kept] = [new Map<CellKey, Altered>(), new Map<CellKey, Altered>()];
  for (const [key, altered] of effect) (stays(key, altered) ? kept : left).set(key, altered);
  return [left, kept];
};

/**
 * The inverse of an edit: a word of the shop's that was new then gives way to what the pack says today, which may be a newer edition. What the head of the shop's own pack
 * says is no part of it.
 */
const edited = (inverse: Effect, state: Cells): Effect => {
  const effect = new Map<CellKey, Altered>();
  for (const [key, altered] of inverse) {
    if (isSaid(key) || stepsOf(key)[0] === 'pack') continue;
    const under = underOf(key);
    const wasNew = inverse.get(under)?.after === null;
    const said = state.get(under);
    effect.set(key, wasNew && said !== undefined ? { ...altered, after: saidBy(said) } : altered);
  }
  return effect;
};
