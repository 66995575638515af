import type { MakerId, ObservationId, PartId, SheetId, SlotId } from '../ids.ts';
import type { Observation, Sheet, Unseen } from '../sheet/sheet.ts';
import { blankSheet } from './blank-sheet.ts';
import { type Changed, changedBy, type Side } from './fields-merged.ts';
import { sameValue } from './same-value.ts';

/** One thing a sheet says, which is changed, chosen and joined as a whole. What is empty is not said. */
export type SheetEntry =
  | { readonly kind: 'title'; readonly text: string }
  | { readonly kind: 'story'; readonly text: string }
  | { readonly kind: 'serial'; readonly text: string }
  | { readonly kind: 'claim'; readonly claimed: string | null; readonly claimedMaker: MakerId | null }
  | { readonly kind: 'kind'; readonly is: Sheet['kind'] }
  | { readonly kind: 'observation'; readonly observation: Observation }
  | { readonly kind: 'unseen'; readonly unseen: Unseen }
  | { readonly kind: 'absent'; readonly slot: SlotId }
  | { readonly kind: 'chosen'; readonly slot: SlotId; readonly part: PartId };

/** Something two states of a sheet say otherwise. Null: not said there. */
export interface SheetDifference {
  /** The same for the same place of the sheet, and for no other. */
  readonly key: string;
  readonly changed: Changed;
  readonly base: SheetEntry | null;
  readonly mine: SheetEntry | null;
  readonly theirs: SheetEntry | null;
}

export interface MergedSheets {
  /** With everything only one of them changed; what both changed is as it was decided, and until then as it is there. */
  readonly merged: Sheet;
  /** Everything in which mine and theirs differ, in the order of a sheet. */
  readonly differences: readonly SheetDifference[];
  /** Those that both changed, and not alike, and nobody has decided. */
  readonly disagreements: readonly SheetDifference[];
}

/**
 * Two states of one sheet, made of the same earlier one, joined entry by entry (H5). Nothing of either is left out but what the other one took away or wrote otherwise, and that
 * stands in `differences`. Entries made on both sides with one id are two entries, where they are not alike: mine gets another id, since photographs may be tied to those that
 * are kept already.
 * @param base what both were made of; null where none was: then only what is empty gives way
 * @param decided which side is taken where both changed, by the key of the difference
 */
export const sheetsMerged = (
  base: Sheet | null,
  mine: Sheet,
  theirs: Sheet,
  decided: ReadonlyMap<string, Side> = new Map(),
): MergedSheets => {
  const before = entriesOf(base ?? blankSheet(theirs.id));
  const there = entriesOf(theirs);
  const here = entriesOf({ ...mine, observations: entriesApart(base, mine, theirs) });
  const differences: SheetDifference[] = [];
  const merged = new Map(there);
  for (const key of new Set([...there.keys(), ...here.keys()])) {
    const sides = { base: before.get(key) ?? null, mine: here.get(key) ?? null, theirs: there.get(key) ?? null };
    const changed = changedBy(sides.base, sides.mine, sides.theirs);
    if (changed === null) continue;
    differences.push({ key, changed, ...sides });
    if (changed === 'there' || (changed === 'both' && decided.get(key) !== 'mine')) continue;
    if (sides.mine === null) merged.delete(key);
    else merged.set(key, sides.mine);
  }
  differences.sort((a, b) => orderOf(a) - orderOf(b));
  return {
    merged: sheetOf(theirs.id, merged),
    differences,
    disagreements: differences.filter(({ key, changed }) => changed === 'both' && !decided.has(key)),
  };
};

const kinds: readonly SheetEntry['kind'][] = ['title', 'claim', 'serial', 'kind', 'observation', 'unseen', 'absent', 'chosen', 'story'];

const orderOf = ({ mine, theirs }: SheetDifference): number => kinds.indexOf((mine ?? theirs)?.kind ?? 'story');

/** Everything a sheet says, by its place. */
const entriesOf = (sheet: Sheet): Map<string, SheetEntry> => {
  const { id: _id, title, story, kind, claimed, claimedMaker, serial, observations, unseen = [], absent, chosen, ...rest } = sheet;
  // Whatever a sheet may say one day must have an entry here, or joining two of them would lose it: this does not compile until it has.
  rest satisfies Record<string, never>;
  const entries: (readonly [string, SheetEntry])[] = [
    ['kind', { kind: 'kind', is: kind }],
    ...observations.map((one): [string, SheetEntry] => [`observation ${one.id}`, { kind: 'observation', observation: one }]),
    ...unseen.map((one): [string, SheetEntry] => [`unseen ${one.feature}`, { kind: 'unseen', unseen: one }]),
    ...absent.map((slot): [string, SheetEntry] => [`absent ${slot}`, { kind: 'absent', slot }]),
    ...(Object.entries(chosen) as [SlotId, PartId][]).map(([slot, part]): [string, SheetEntry] => [
      `chosen ${slot}`,
      { kind: 'chosen', slot, part },
    ]),
  ];
  if (title !== '') entries.push(['title', { kind: 'title', text: title }]);
  if (story !== '') entries.push(['story', { kind: 'story', text: story }]);
  if (serial !== undefined) entries.push(['serial', { kind: 'serial', text: serial }]);
  if (claimed !== null || claimedMaker !== null) entries.push(['claim', { kind: 'claim', claimed, claimedMaker }]);
  return new Map(entries);
};

/** The sheet that says these, in this order. */
const sheetOf = (id: SheetId, entries: ReadonlyMap<string, SheetEntry>): Sheet => {
  const all = [...entries.values()];
  const of = <Kind extends SheetEntry['kind']>(kind: Kind) =>
    all.filter((one): one is Extract<SheetEntry, { readonly kind: Kind }> => one.kind === kind);
  const unseen = of('unseen').map((one) => one.unseen);
  const [claim] = of('claim');
  const [serial] = of('serial');
  return {
    id,
    title: of('title')[0]?.text ?? '',
    story: of('story')[0]?.text ?? '',
    kind: of('kind')[0]?.is ?? 'found',
    claimed: claim?.claimed ?? null,
    claimedMaker: claim?.claimedMaker ?? null,
    ...(serial === undefined ? {} : { serial: serial.text }),
    observations: of('observation').map(({ observation }) => observation),
    ...(unseen.length === 0 ? {} : { unseen }),
    absent: of('absent').map(({ slot }) => slot),
    chosen: Object.fromEntries(of('chosen').map(({ slot, part }) => [slot, part])) as Sheet['chosen'],
  };
};

/** My entries under ids of their own: one made alike on both sides is one entry, and one made otherwise under the same id is another. */
const entriesApart = (base: Sheet | null, mine: Sheet, theirs: Sheet): readonly Observation[] => {
  const known = new Set((base?.observations ?? []).map(({ id }) => id));
  const taken = new Set([base, mine, theirs].flatMap((sheet) => (sheet?.observations ?? []).map(({ id }) => id)));
  const theirNew = theirs.observations.filter(({ id }) => !known.has(id));
  const paired = new Set<ObservationId>();
  const pairs = mine.observations.map((one) => {
    if (known.has(one.id)) return null;
    const alike = theirNew.filter((other) => !paired.has(other.id) && sameValue({ ...other, id: one.id }, one));
    const found = alike.find(({ id }) => id === one.id) ?? alike[0] ?? null;
    if (found !== null) paired.add(found.id);
    return found;
  });
  const stolen = new Set(theirNew.map(({ id }) => id));
  return mine.observations.map((one, i) => {
    const alike = pairs[i] ?? null;
    if (alike !== null) return alike;
    if (known.has(one.id) || !stolen.has(one.id)) return one;
    const id = freeId(taken);
    taken.add(id);
    return { ...one, id };
  });
};

/** `o1`, `o2`, …: the first no entry has. */
const freeId = (taken: ReadonlySet<string>): ObservationId => {
  let number = taken.size + 1;
  while (taken.has(`o${number}`)) number += 1;
  return `o${number}` as ObservationId;
};
