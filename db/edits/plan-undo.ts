import { type CellKey, type Cells, stepsOf } from '../atlas/cell.ts';
import { cellSeen } from '../changes/cell-seen.ts';
import { packOf } from '../changes/cells-of.ts';
import { type Altered, applyTo, type Dispute, type Effect, entryOf, rebaseOnto, reverse } from '../changes/change.ts';
import { effectOf } from '../changes/journal.ts';
import { isSaid, noWords, saidBy, saidCells, saidUnder, underOf, wordsIn } from '../changes/own-words.ts';
import type { Reader } from '../driver/driver.ts';
import { type Ground, packOfOrigin } from './ground.ts';
import { entriesOf } from './history.ts';
import { checkNext, type Next, type Planned, type Setting } from './plan.ts';
import type { DisputeSeen } from './seen.ts';

export interface PlannedUndo extends Planned {
  /** What something later rests on, and is therefore left as it is. */
  readonly disputes: readonly DisputeSeen[];
}

/** How often what cannot go, because something later speaks of it, is taken out of what is undone. */
const mostTries = 20;

/**
 * A change undone in the atlas as it stands: what nothing later rests on. A cell somebody has changed since is left, and so is an entry that something later speaks of.
 * Throws `not-found`.
 */
export const planUndo = async (reader: Reader, ground: Ground, change: number, setting: Setting): Promise<PlannedUndo> => {
  const { own } = setting;
  const entries = [...(await entriesOf(reader, change))].reverse();
  const undone: { readonly pack: string; readonly effect: Effect }[] = [];
  for (const { n, origin } of entries) undone.push({ pack: packOfOrigin(origin), effect: reverse(await effectOf(reader, n)) });
  const kept = new Map<string, Set<CellKey>>();
  for (let tries = 1; ; tries += 1) {
    const { next, disputes } = undoneOf(ground, undone, own, kept);
    const planned = await checkNext(ground, next, setting);
    const more = planned.faults.length === 0 || tries === mostTries ? false : keepWhatIsSpokenOf(planned, undone, kept);
    if (!more) return { ...planned, disputes };
  }
};

/** What would go and is still spoken of stays from now on. Whether there is any such thing. */
const keepWhatIsSpokenOf = (
  { faults }: Planned,
  undone: readonly { readonly pack: string; readonly effect: Effect }[],
  kept: Map<string, Set<CellKey>>,
): boolean => {
  const spokenOf = new Set(faults.flatMap(({ found }) => [...found.matchAll(/"([^"]+)"/g)].map(([, id]) => id)));
  let more = false;
  for (const { pack, effect } of undone)
    for (const [key, { after }] of effect) {
      const [, id] = stepsOf(key);
      if (key !== entryOf(key) || after !== null || !spokenOf.has(id) || isSaid(key)) continue;
      const of = kept.get(pack) ?? new Set();
      kept.set(pack, of);
      more ||= !of.has(key);
      of.add(key);
    }
  return more;
};

const undoneOf = (
  ground: Ground,
  undone: readonly { readonly pack: string; readonly effect: Effect }[],
  own: string,
  kept: ReadonlyMap<string, ReadonlySet<CellKey>>,
): { readonly next: Next; readonly disputes: readonly DisputeSeen[] } => {
  const states = new Map<string, Cells>();
  const disputes: DisputeSeen[] = [];
  const wholly = new Set<string>();
  for (const { pack, effect } of undone) {
    const held = ground.held.get(pack);
    const state = states.get(pack) ?? (held === undefined ? new Map() : new Map([...ground.cellsOf(pack), ...saidCells(held.words)]));
    const whole = pack !== own && [...effect.keys()].some((key) => stepsOf(key)[0] === 'pack');
    if (whole) wholly.add(pack);
    const keep = kept.get(pack) ?? new Set();
    const [left, stays] = parted(whole ? effect : edited(effect, state), (key) => keep.has(entryOf(key)));
    const rebased = rebaseOnto(left, state);
    states.set(pack, applyTo(state, rebased.effect));
    const spokenOf = [...stays].flatMap(([key, { before, after }]): Dispute[] =>
      key === entryOf(key) ? [{ key, before, after, present: state.get(key) ?? null }] : [],
    );
    for (const { key, before, present, after } of [...rebased.disputes, ...spokenOf])
      if (!isSaid(key))
        disputes.push({
          pack,
          own: pack === own,
          ...cellSeen(key),
          before: before?.is ?? null,
          present: present?.is ?? null,
          after: after?.is ?? null,
        });
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

const parted = (effect: Effect, stays: (key: CellKey) => boolean): [Effect, Effect] => {
  const [left, kept] = [new Map<CellKey, Altered>(), new Map<CellKey, Altered>()];
  for (const [key, altered] of effect) (stays(key) ? kept : left).set(key, altered);
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
