import type { Status } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { SheetId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { caseChanges, type SlotChange } from './case-changes.ts';
import type { CaseVerdict } from './case-verdict.ts';

/** What matters at the counter of a verdict: what the claim came to, what the unit may honestly be called, and the words for the ticket (W1). */
export interface Told {
  readonly contradiction: boolean;
  readonly claim: { readonly text: string; readonly status: Status } | null;
  readonly honest: readonly string[];
  /** Null where they were not kept. */
  readonly ticket: { readonly may: readonly string[]; readonly mustNot: readonly string[] } | null;
}

/** In what the two differ. */
export type Retelling = 'contradiction' | 'claim' | 'honest name' | 'ticket';

/** What a case was told, and what the same entries would be told by today's atlas. */
export interface Retold {
  readonly was: Told;
  readonly is: Told;
  /** Never empty. */
  readonly differs: readonly Retelling[];
  readonly weight: RetoldWeight;
  /** One sentence of what became of it. */
  readonly sentence: string;
  /** What the atlas changed in the slots, then the reasons that were not given then. */
  readonly why: readonly string[];
  /** The first of it as data. */
  readonly slots: readonly SlotChange[];
}

/** Worst first: what was said of it to somebody, and is not so any more. */
export const retoldWeights = [
  'the claim stood and is ruled out',
  'a name that stood is ruled out',
  'the claim stood and is open',
  'entries contradict each other now',
  'the claim was open and is ruled out',
  'another honest name',
  'the claim is no longer ruled out, or settled',
  'other words for the ticket',
] as const;
export type RetoldWeight = (typeof retoldWeights)[number];

/** More reasons than this are not listed by a case; its history has them all. */
const mostReasons = 6;

export const toldOf = (verdict: CaseVerdict): Told =>
  verdict.kind === 'contradiction'
    ? { contradiction: true, claim: null, honest: [], ticket: null }
    : {
        contradiction: false,
        claim: verdict.claim === null ? null : { text: verdict.claim.text, status: verdict.claim.status },
        honest: verdict.honest.map(({ text }) => text),
        ticket: verdict.ticket ?? null,
      };

/**
 * What the saved entries of a case would be told today, against what was kept of what they were told; null where nothing that matters at the counter differs. It is one verdict's
 * work, whatever else there is.
 * @throws when the sheet speaks of slots, features or parts today's atlas does not have; the door refuses those
 */
export const retold = (atlas: CompiledAtlas, kept: { readonly sheet: Sheet; readonly verdict: CaseVerdict }): Retold | null => {
  const changes = caseChanges(atlas, kept, kept.sheet);
  const { then, today } = changes;
  const [was, is] = [toldOf(then), toldOf(today)];
  const differs = differencesOf(was, is);
  if (differs.length === 0) return null;
  const before = new Set(then.sentences);
  const reasons = today.sentences.filter((sentence) => !before.has(sentence));
  return {
    was,
    is,
    differs,
    weight: weightOf(
      was,
      is,
      changes.names.some((name) => name.was === 'stands' && name.is === 'ruled out' && wasHonest(then, name.id)),
    ),
    sentence: changes.sentence,
    why: [...new Set([...changes.slots.map(({ sentence }) => sentence), ...reasons])].slice(0, mostReasons),
    slots: changes.slots,
  };
};

const wasHonest = (then: CaseVerdict, id: string): boolean => then.kind === 'verdict' && then.honest.some((name) => name.id === id);

const sameList = (a: readonly string[], b: readonly string[]): boolean => a.length === b.length && a.every((text, i) => text === b[i]);

const differencesOf = (was: Told, is: Told): Retelling[] => {
  if (was.contradiction !== is.contradiction) return ['contradiction'];
  return [
    ...(was.claim?.text === is.claim?.text && was.claim?.status === is.claim?.status ? [] : (['claim'] as const)),
    ...(sameList(was.honest, is.honest) ? [] : (['honest name'] as const)),
    // What was not kept cannot differ.
    ...(was.ticket === null ||
    is.ticket === null ||
    (sameList(was.ticket.may, is.ticket.may) && sameList(was.ticket.mustNot, is.ticket.mustNot))
      ? []
      : (['ticket'] as const)),
  ];
};

const weightOf = (was: Told, is: Told, nameFell: boolean): RetoldWeight => {
  const [then, now] = [was.claim?.status, is.claim?.status];
  if (then === 'stands' && now === 'ruled out') return 'the claim stood and is ruled out';
  if (nameFell) return 'a name that stood is ruled out';
  if (then === 'stands' && now === 'open') return 'the claim stood and is open';
  if (is.contradiction && !was.contradiction) return 'entries contradict each other now';
  if (then === 'open' && now === 'ruled out') return 'the claim was open and is ruled out';
  if (!sameList(was.honest, is.honest)) return 'another honest name';
  return then !== now ? 'the claim is no longer ruled out, or settled' : 'other words for the ticket';
};

/** A case by what it is told by: its number, its title, and who saved it last. */
export interface SavedCase {
  readonly sheet: SheetId;
  readonly number: string;
  readonly title: string;
  /** Which of its entries that is, from 1; ISO time and who saved it. */
  readonly entry: number;
  readonly savedAt: string;
  readonly who: string;
}

/** A case as it was saved last. */
export interface KeptCase extends SavedCase {
  /** What was entered, or what today's atlas does not know of it. */
  readonly kept:
    | { readonly sheet: Sheet; readonly verdict: CaseVerdict }
    | { readonly faults: readonly string[]; readonly verdict: CaseVerdict };
}

export interface RetoldCase extends SavedCase {
  /** Null where today's atlas cannot judge it: `faults` then says what it does not know. */
  readonly retold: Retold | null;
  readonly was: Told;
  readonly faults: readonly string[];
}

export interface RetoldProgress {
  readonly judged: number;
  readonly of: number;
}

export interface RetoldList {
  readonly edition: string;
  /** Worst first, then the case saved last first; those that cannot be judged stand last. */
  readonly cases: readonly RetoldCase[];
  readonly judged: number;
  readonly of: number;
  /** How many would be told otherwise and were left as they were told. */
  readonly left: number;
  /** False where it was stopped before all were judged. */
  readonly complete: boolean;
}

/**
 * Every case judged once more, a case at a time; those that would be told otherwise are the list to work off. Yields after each; answered with true it stops there.
 * @param isLeft whether somebody has left this case as it was told, though it would be told this
 */
export function* retoldAll(
  atlas: CompiledAtlas,
  items: readonly KeptCase[],
  isLeft: (one: KeptCase, is: Told) => boolean,
): Generator<RetoldProgress, RetoldList, boolean | undefined> {
  const cases: RetoldCase[] = [];
  let [judged, left, stopped] = [0, 0, false];
  for (const { kept, ...item } of items) {
    if (stopped) break;
    if ('faults' in kept) cases.push({ ...item, retold: null, was: toldOf(kept.verdict), faults: kept.faults });
    else {
      const found = retold(atlas, kept);
      if (found !== null && isLeft({ kept, ...item }, found.is)) left += 1;
      else if (found !== null) cases.push({ ...item, retold: found, was: found.was, faults: [] });
    }
    judged += 1;
    stopped = (yield { judged, of: items.length }) === true;
  }
  return { edition: atlas.data.edition, cases: cases.sort(worstFirst), judged, of: items.length, left, complete: judged === items.length };
}

const placeOf = ({ retold: found }: RetoldCase): number => (found === null ? retoldWeights.length : retoldWeights.indexOf(found.weight));

const worstFirst = (a: RetoldCase, b: RetoldCase): number => placeOf(a) - placeOf(b) || savedLastFirst(a, b);

/** An order of cases; those saved at one moment by their numbers. */
export const savedLastFirst = (a: SavedCase, b: SavedCase): number =>
  a.savedAt === b.savedAt ? (a.number < b.number ? -1 : 1) : a.savedAt < b.savedAt ? 1 : -1;
