import type { OpenedSheet } from '../../db/answers.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { blankSheet } from '../../reasoner/plain/blank-sheet.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { idOf, isBlank, isUnsaved, keptOf, type Unit, type UnitAction, unitAfter, unitOf } from './unit.ts';

export type Kind = Sheet['kind'];

/** So many may be open at once; those brought back after a window was lost are all there, however many. */
export const mostOpen = 12;

/** All units open in this window. Pure: what is told of them elsewhere, and where they are kept, is their holder's. */
export interface Benches {
  /** In the order they were opened; one of a found unit is always there, blank when nothing else is. */
  readonly open: readonly Unit[];
  /** Which of the found units is shown where found units are. */
  readonly found: SheetId;
  /** Which of the builds is shown where builds are; null while none is open. */
  readonly planned: SheetId | null;
  /** Which kind was shown last: what screens of neither kind speak of. */
  readonly kind: Kind;
  /** Were open and saved when the window was lost, and are not fetched yet. */
  readonly coming: readonly SheetId[];
}

/** Which sheets were open, in their order, and which was shown of each kind. */
export interface OpenList {
  readonly order: readonly SheetId[];
  readonly found: SheetId | null;
  readonly planned: SheetId | null;
}

export type BenchesAction = (
  | { readonly do: 'take up'; readonly sheet: Sheet; readonly stored: OpenedSheet | null }
  | { readonly do: 'turn to'; readonly id: SheetId }
  /** A screen of one kind is shown. */
  | { readonly do: 'look at'; readonly kind: Kind }
  | { readonly do: 'close'; readonly ids: readonly SheetId[] }
  /** What was open before and saved is here; `gone` are not on the shelf any more. */
  | { readonly do: 'bring back'; readonly opened: readonly OpenedSheet[]; readonly gone: readonly SheetId[]; readonly before: OpenList }
  | { readonly do: 'to'; readonly id: SheetId; readonly act: UnitAction }
) & {
  /** The id of the blank sheet, should one be needed. */
  readonly fresh: SheetId;
};

/**
 * As a window begins: what was not saved, in the order it was open. What was open and saved is still to come, and `found` waits for it on a blank sheet.
 *
 * @param drafts of different sheets
 */
export const benchesAtStart = (drafts: readonly Unit[], before: OpenList | null, fresh: SheetId): Benches => {
  const coming = before?.order.filter((id) => !drafts.some((one) => idOf(one) === id)) ?? [];
  const open = inOrder(drafts, before?.order ?? []);
  const waits = before?.found != null && coming.includes(before.found);
  const blank = unitOf(blankSheet(fresh), null);
  return whole(
    {
      open: waits ? [...open, blank] : open,
      found: waits ? fresh : (before?.found ?? fresh),
      planned: before?.planned ?? null,
      kind: 'found',
      coming,
    },
    fresh,
  );
};

export function benchesAfter(benches: Benches, action: BenchesAction): Benches {
  switch (action.do) {
    case 'take up':
      return whole(takenUp(benches, action.sheet, action.stored), action.fresh);
    case 'turn to':
      return turnedTo(benches, action.id);
    case 'look at':
      return benches.kind === action.kind ? benches : { ...benches, kind: action.kind };
    case 'close':
      return whole(action.ids.reduce(closed, benches), action.fresh);
    case 'bring back':
      return whole(broughtBack(benches, action), action.fresh);
    case 'to': {
      const unit = openWith(benches, action.id);
      const after = unit === undefined ? undefined : unitAfter(unit, action.act);
      if (after === undefined || after === unit) return benches;
      const open = benches.open.map((one) => (one === unit ? after : one));
      return whole({ ...benches, open }, action.fresh);
    }
  }
}

export const openWith = ({ open }: Benches, id: SheetId | null): Unit | undefined => open.find((one) => idOf(one) === id);

/** Which is shown of a kind; of builds none may be. */
export function shownOf(benches: Benches, kind: 'found'): Unit;
export function shownOf(benches: Benches, kind: Kind): Unit | undefined;
export function shownOf(benches: Benches, kind: Kind): Unit | undefined {
  return openWith(benches, benches[kind]);
}

/** Those worth naming: a blank sheet is not, unless it is what is shown. */
export const named = ({ open }: Benches, shown: SheetId): readonly Unit[] => open.filter((one) => idOf(one) === shown || !isBlank(one));

/** Whether another sheet can be taken up: it is open already, takes the place of a blank one, or there is room for one more. */
export const hasRoom = (benches: Benches, { id, kind }: Pick<Sheet, 'id' | 'kind'>): boolean =>
  openWith(benches, id) !== undefined ||
  benches.open.some((one) => isBlank(one) && kindOf(one) === kind) ||
  benches.open.filter((one) => !isBlank(one)).length < mostOpen;

/** What is remembered of them, so that they come back. */
export const listOf = (benches: Benches): OpenList => {
  const remembered = benches.open.filter((one) => !isBlank(one)).map(idOf);
  return { order: [...remembered, ...benches.coming], found: benches.found, planned: benches.planned };
};

const kindOf = (unit: Unit): Kind => unit.history.present.kind;

const turnedTo = (benches: Benches, id: SheetId): Benches => {
  const unit = openWith(benches, id);
  if (unit === undefined) return benches;
  return { ...benches, [kindOf(unit)]: id, kind: kindOf(unit) };
};

const takenUp = (benches: Benches, sheet: Sheet, stored: OpenedSheet | null): Benches => {
  const here = openWith(benches, sheet.id);
  if (here !== undefined) {
    const open = benches.open.map((one) => (one === here ? takenUpAgain(one, sheet, stored) : one));
    return turnedTo({ ...benches, open }, sheet.id);
  }
  if (!hasRoom(benches, sheet)) return benches;
  const unit = unitOf(sheet, stored === null ? null : keptOf(stored));
  const blank = benches.open.find((one) => isBlank(one) && kindOf(one) === sheet.kind);
  const open = blank === undefined ? [...benches.open, unit] : benches.open.map((one) => (one === blank ? unit : one));
  return turnedTo({ ...benches, open, coming: benches.coming.filter((id) => id !== sheet.id) }, sheet.id);
};

/** It is open already. What was entered stays; what is there by now is shown where nothing was, and told where something was. */
const takenUpAgain = (unit: Unit, sheet: Sheet, stored: OpenedSheet | null): Unit => {
  const opened = stored !== null && sameValue(sheet, stored.sheet);
  if (!opened) {
    const seen = [unit.history.present, ...unit.history.past].some((one) => sameValue(one, sheet));
    return seen ? unit : unitAfter(unit, { do: 'join', sheet, kept: stored === null ? unit.kept : keptOf(stored) });
  }
  if (unit.kept?.version === stored.version) return unit;
  if (!isUnsaved(unit)) return unitAfter(unit, { do: 'join', sheet, kept: keptOf(stored) });
  return { ...unit, elsewhere: { how: 'changed', theirs: stored } };
};

/** Its neighbour of the same kind is shown in its place: the one after it, else the one before. */
const closed = (benches: Benches, id: SheetId): Benches => {
  const unit = openWith(benches, id);
  if (unit === undefined) return benches;
  const kind = kindOf(unit);
  const alike = benches.open.filter((one) => kindOf(one) === kind);
  const at = alike.indexOf(unit);
  const next = alike[at + 1] ?? alike[at - 1];
  const open = benches.open.filter((one) => one !== unit);
  return benches[kind] === id ? { ...benches, open, [kind]: next === undefined ? null : idOf(next) } : { ...benches, open };
};

const broughtBack = (benches: Benches, { opened, gone, before }: Extract<BenchesAction, { do: 'bring back' }>): Benches => {
  const back = opened
    .filter(({ sheet }) => openWith(benches, sheet.id) === undefined)
    .map((stored) => unitOf(stored.sheet, keptOf(stored)));
  const done = new Set([...gone, ...opened.map(({ sheet }) => sheet.id)]);
  const open = inOrder([...benches.open, ...back], before.order);
  const of = (kind: Kind) => back.filter((one) => kindOf(one) === kind).map(idOf);
  const wanted = (kind: Kind): SheetId | undefined => {
    const id = before[kind];
    return of(kind).find((one) => one === id) ?? (id !== null && gone.includes(id) ? of(kind).at(-1) : undefined);
  };
  // Whoever has begun on the blank sheet meanwhile stays with it.
  const found = isBlank(shownOf(benches, 'found')) ? wanted('found') : undefined;
  return {
    ...benches,
    open: found === undefined ? open : open.filter((one) => idOf(one) !== benches.found),
    found: found ?? benches.found,
    planned: benches.planned ?? wanted('planned') ?? null,
    coming: benches.coming.filter((id) => !done.has(id)),
  };
};

const inOrder = (units: readonly Unit[], order: readonly SheetId[]): readonly Unit[] => {
  const place = (unit: Unit): number => {
    const at = order.indexOf(idOf(unit));
    return at === -1 ? order.length : at;
  };
  return [...units].sort((a, b) => place(a) - place(b));
};

/** What is shown of a kind is open and of that kind, and a found unit is always there. */
const whole = (benches: Benches, fresh: SheetId): Benches => {
  const is = (kind: Kind) => (one: Unit) => kindOf(one) === kind;
  const founds = benches.open.filter(is('found'));
  const builds = benches.open.filter(is('planned'));
  const blank = founds.length === 0 ? [unitOf(blankSheet(fresh), null)] : [];
  const among = (units: readonly Unit[], id: SheetId | null): SheetId | null =>
    units.map(idOf).find((one) => one === id) ?? units.map(idOf).at(-1) ?? null;
  const found = among([...founds, ...blank], benches.found) as SheetId;
  const planned = among(builds, benches.planned);
  const kind = planned === null ? 'found' : benches.kind;
  if (blank.length === 0 && found === benches.found && planned === benches.planned && kind === benches.kind) return benches;
  return { ...benches, open: [...benches.open, ...blank], found, planned, kind };
};
