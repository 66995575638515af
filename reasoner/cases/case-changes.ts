import { type Rung, rungs, type Status } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { NameId, SlotId } from '../ids.ts';
import { capital } from '../plain/text.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { CaseVerdict, KeptName, KeptSlot } from './case-verdict.ts';
import { type JudgedCase, judged } from './judge-case.ts';
import { type AppliedChange, appliedChanges, type SheetChange } from './sheet-changes.ts';

/** What became of a case since one of its entries was kept, and whether the atlas or the entries did it. */
export interface CaseChanges {
  readonly editions: { readonly was: string; readonly is: string };
  /** In what the sheet differs. */
  readonly entries: readonly SheetChange[];
  /** Names whose status is another now: the claimed name first, then by rung. */
  readonly names: readonly NameChange[];
  /** What became of the claim, whatever it is written as; null where nothing was claimed, or it is as it was. */
  readonly claim: ClaimChange | null;
  /** What the atlas alone changed in the slots, the kept entries answered anew: the parts behind a change of status. */
  readonly slots: readonly SlotChange[];
  readonly then: CaseVerdict;
  /** The kept entries, answered under today's atlas. */
  readonly rejudged: CaseVerdict;
  readonly today: CaseVerdict;
  /** One sentence for the reader in a hurry. */
  readonly sentence: string;
}

/** `not judged`: the name was not formed then (hybrids are formed only where the unit calls for them), or the entries contradicted each other. */
export type StatusThen = Status | 'not judged';

export interface NameChange {
  readonly id: NameId;
  readonly text: string;
  readonly claimed: boolean;
  readonly was: StatusThen;
  /** Of the kept entries under today's atlas. */
  readonly rejudged: StatusThen;
  readonly is: StatusThen;
  readonly because: 'atlas' | 'entries' | 'both';
  /** Places in `entries` that bring this about each by itself; empty where only several together do, or where the atlas alone did. */
  readonly byItself: readonly number[];
  readonly sentence: string;
}

export interface ClaimChange {
  readonly was: { readonly text: string; readonly status: StatusThen } | null;
  readonly is: { readonly text: string; readonly status: StatusThen } | null;
  readonly because: NameChange['because'];
}

export interface SlotChange {
  readonly slot: SlotId;
  readonly name: string;
  readonly was: number;
  readonly is: number;
  /** Parts by name that remained then and no longer do, and the reverse; empty where there were too many to be kept. */
  readonly gone: readonly string[];
  readonly come: readonly string[];
  readonly sentence: string;
}

/** Beyond this many changed entries none is tried by itself: the sheet was filled anew. */
const triedSingly = 24;

/**
 * What a kept verdict and today's differ in, and why: the kept entries are answered again under today's atlas, so that what the atlas did
 * stands between the kept verdict and that answer, and what the entries did between that answer and today's.
 * @throws when either sheet speaks of slots, features or parts today's atlas does not have; the door refuses those
 */
export const caseChanges = (
  atlas: CompiledAtlas,
  kept: { readonly sheet: Sheet; readonly verdict: CaseVerdict },
  now: Sheet,
): CaseChanges => {
  const applied = appliedChanges(atlas, kept.sheet, now);
  const mid = judged(atlas, kept.sheet, true);
  const today = applied.some(({ apply }) => apply !== null) ? judged(atlas, now, true) : mid;
  const then = kept.verdict;
  const moved = namesIn(then, mid, today).flatMap((name): Omit<NameChange, 'byItself' | 'sentence'>[] => {
    const [was, rejudged, is] = [statusThen(then, name), statusIn(mid, name), statusIn(today, name)];
    if (was === is) return [];
    const because = rejudged === is ? 'atlas' : was === rejudged ? 'entries' : 'both';
    return [{ id: name.id, text: name.text, claimed: isClaimed(today.verdict, name.id), was, rejudged, is, because }];
  });
  const single = moved.some(({ because }) => because !== 'atlas') ? triedOneByOne(atlas, kept.sheet, applied) : [];
  const names = moved.map((change): NameChange => {
    const byItself =
      change.because === 'atlas'
        ? []
        : single.flatMap(({ index, outcome }) => (outcome.statuses.get(change.id) === change.is ? [index] : []));
    return { ...change, byItself, sentence: nameSentence(change) };
  });
  const slots = slotChanges(then, mid.verdict);
  const claim = claimChange(kept, mid.verdict, today.verdict, now);
  return {
    editions: { was: then.edition, is: mid.verdict.edition },
    entries: applied.map(({ change }) => change),
    names,
    claim,
    slots,
    then,
    rejudged: mid.verdict,
    today: today.verdict,
    sentence: sentenceOf(then, today.verdict, { names: names.length, claim, entries: applied.length, slots: slots.length }),
  };
};

interface NameSeen {
  readonly id: NameId;
  readonly text: string;
  readonly rung: Rung;
}

/** Every name that was or is more than ruled out, and the claimed ones; the claim of today first, then best rung first. */
const namesIn = (then: CaseVerdict, ...later: readonly JudgedCase[]): NameSeen[] => {
  const verdicts = [then, ...later.map(({ verdict }) => verdict)];
  const all = new Map<NameId, NameSeen>();
  for (const verdict of verdicts) {
    if (verdict.kind === 'contradiction') continue;
    for (const name of verdict.names) all.set(name.id, name);
  }
  // A claimed name that is ruled out is among no kept names; its text is the claim's own.
  for (const verdict of verdicts) {
    if (verdict.kind === 'contradiction' || verdict.claim === null || verdict.claim.name === null) continue;
    const { name, text } = verdict.claim;
    if (!all.has(name)) all.set(name, { id: name, text, rung: 'model with service parts replaced' });
  }
  const first = later.at(-1)?.verdict;
  const claimed = first === undefined ? null : claimedIn(first);
  return [...all.values()].sort(
    (a, b) => Number(b.id === claimed) - Number(a.id === claimed) || rungs.indexOf(a.rung) - rungs.indexOf(b.rung),
  );
};

const claimedIn = (verdict: CaseVerdict): NameId | null => (verdict.kind === 'contradiction' ? null : (verdict.claim?.name ?? null));
const isClaimed = (verdict: CaseVerdict, id: NameId): boolean => claimedIn(verdict) === id;

/** Of a kept verdict only names that were not ruled out are known, and every name but a hybrid or a core is always judged (SPEC, Names). */
const statusThen = (then: CaseVerdict, { id, rung }: NameSeen): StatusThen => {
  if (then.kind === 'contradiction') return 'not judged';
  const kept = then.names.find((name) => name.id === id)?.status ?? (then.claim?.name === id ? then.claim.status : undefined);
  return kept ?? (formedOnDemand.has(rung) ? 'not judged' : 'ruled out');
};

const statusIn = ({ verdict, statuses }: JudgedCase, { id, rung }: NameSeen): StatusThen => {
  if (verdict.kind === 'contradiction') return 'not judged';
  const found = statuses.get(id);
  if (found !== undefined) return found === 'ruled out' && formedOnDemand.has(rung) ? 'not judged' : found;
  return 'not judged';
};

/** Names made of what a unit holds: that one is missing says nothing of it. */
const formedOnDemand: ReadonlySet<Rung> = new Set<Rung>(['hybrid', 'core']);

const claimChange = (
  kept: { readonly sheet: Sheet; readonly verdict: CaseVerdict },
  rejudged: CaseVerdict,
  today: CaseVerdict,
  now: Sheet,
): ClaimChange | null => {
  const of = (verdict: CaseVerdict, sheet: Sheet): ClaimChange['was'] =>
    verdict.kind === 'contradiction'
      ? sheet.claimed === null
        ? null
        : { text: sheet.claimed, status: 'not judged' }
      : verdict.claim === null
        ? null
        : { text: verdict.claim.text, status: verdict.claim.status };
  const [was, mid, is] = [of(kept.verdict, kept.sheet), of(rejudged, kept.sheet), of(today, now)];
  const same = (a: ClaimChange['was'], b: ClaimChange['was']) => a?.text === b?.text && a?.status === b?.status;
  return same(was, is) ? null : { was, is, because: same(mid, is) ? 'atlas' : same(was, mid) ? 'entries' : 'both' };
};

const triedOneByOne = (atlas: CompiledAtlas, kept: Sheet, applied: readonly AppliedChange[]) => {
  const telling = applied.flatMap(({ apply }, index) => (apply === null ? [] : [{ apply, index }]));
  if (telling.length > triedSingly) return [];
  return telling.map(({ apply, index }) => ({ index, outcome: judged(atlas, apply(kept), false) }));
};

const slotChanges = (then: CaseVerdict, rejudged: CaseVerdict): SlotChange[] => {
  if (then.kind === 'contradiction' || rejudged.kind === 'contradiction') return [];
  return rejudged.slots.flatMap((now): SlotChange[] => {
    const before = then.slots.find(({ slot }) => slot === now.slot);
    if (before === undefined || sameParts(before, now)) return [];
    const [gone, come] = [missing(before, now), missing(now, before)];
    const counted = before.left === now.left ? '' : ` ${before.left} remained then, ${now.left} now.`;
    const which = [
      gone.length > 0 ? `no longer possible: ${gone.join(', ')}` : '',
      come.length > 0 ? `now possible: ${come.join(', ')}` : '',
    ].filter((text) => text !== '');
    const names = which.length === 0 ? '' : ` ${which.join('; ').replace(/^./, (first) => first.toUpperCase())}.`;
    return [
      {
        slot: now.slot,
        name: now.name,
        was: before.left,
        is: now.left,
        gone,
        come,
        sentence: `In the ${now.name} today’s atlas leaves other parts.${counted}${names}`,
      },
    ];
  });
};

const sameParts = (a: KeptSlot, b: KeptSlot): boolean =>
  a.left === b.left && (a.parts === null || b.parts === null || (missing(a, b).length === 0 && missing(b, a).length === 0));

/** By name, those of one that the other does not have; none where either list was too long to be kept. */
const missing = (of: KeptSlot, from: KeptSlot): string[] => {
  if (of.parts === null || from.parts === null) return [];
  const there = new Set(from.parts.map(({ id }) => id));
  return of.parts.filter(({ id }) => !there.has(id)).map(({ name }) => name);
};

const causes = {
  atlas: 'The entries are the same; the atlas knows more, or knows otherwise.',
  entries: 'The atlas would have said so then; the entries are others.',
  both: 'Atlas and entries both had a part in it.',
} as const;

const nameSentence = ({ text, was, is, because }: Omit<NameChange, 'byItself' | 'sentence'>): string =>
  `${text} was ${was} and is ${is === 'not judged' ? 'not judged any more' : `${is} now`}. ${causes[because]}`;

const sentenceOf = (
  then: CaseVerdict,
  today: CaseVerdict,
  {
    names,
    claim,
    entries,
    slots,
  }: { readonly names: number; readonly claim: ClaimChange | null; readonly entries: number; readonly slots: number },
): string => {
  const edition = then.edition === today.edition ? 'the same edition of the atlas' : 'another edition of the atlas';
  const sheet = entries === 0 ? 'the same entries' : `${entries} ${entries === 1 ? 'change' : 'changes'} on the sheet`;
  const where = `(${capital(edition)}, ${sheet}.)`;
  if (then.kind === 'contradiction' || today.kind === 'contradiction') {
    if (then.kind === today.kind) return `Entries contradicted each other then and do now: nothing was judged. ${where}`;
    return then.kind === 'contradiction'
      ? `Entries contradicted each other then; they no longer do, and names are judged. ${where}`
      : `Entries contradict each other now, so nothing is judged until they are settled. ${where}`;
  }
  const texts = (honest: readonly KeptName[]) => honest.map(({ text }) => text).join(' or ');
  const [was, is] = [texts(then.honest), texts(today.honest)];
  const parts = [
    was === is ? `The honest name is still ${is}.` : `The honest name was ${was} and is ${is} now.`,
    claim === null ? '' : claimSentence(claim),
    names === 0 && claim === null && slots === 0 ? 'Every name has the status it had.' : '',
  ].filter((text) => text !== '');
  return `${parts.join(' ')} ${where}`;
};

const claimSentence = ({ was, is }: ClaimChange): string => {
  if (was === null) return `Nothing was claimed then; “${is?.text}” is ${is?.status}.`;
  if (is === null) return `“${was.text}” was claimed and ${was.status}; nothing is claimed now.`;
  return was.text === is.text
    ? `The claimed “${is.text}” was ${was.status} and is ${is.status} now.`
    : `“${was.text}” was claimed and ${was.status}; “${is.text}” is claimed now and ${is.status}.`;
};
