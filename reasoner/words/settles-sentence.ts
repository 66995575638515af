import type { CheckOutcome } from '../answer/odds.ts';
import type { Status } from '../answer/verdict.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { NameId } from '../ids.ts';
import { capital, list, numberInWords, wordsUpTo } from '../plain/text.ts';
import { ifItReads } from './reads-phrase.ts';

/** What is said now, before the check. */
export interface SaidNow {
  /** The claim as it was written; null where nothing is claimed. */
  readonly claimed: string | null;
  readonly claim: Status | null;
  readonly honest: readonly NameId[];
  /** Names open above the honest one. */
  readonly open: number;
}

/** Of several effects of one check so many are told, the likeliest of those that change something first. */
const told = 3;

/**
 * What the likely readings of a check would settle, and no more: what becomes of the claim where any of them changes it; else of the honest name; else which name comes back; else how many of the names
 * still open each leaves. `If there are 10 blades, Petrel 13 Cartridge is out; if 11 blades, it stays open.` Of readings that are not among the outcomes nothing is said.
 * @param same of entries read again: the outcome of their reading the same, and what follows then
 */
export const settlesSentence = (
  feature: Feature,
  outcomes: readonly CheckOutcome[],
  now: SaidNow,
  same: { readonly outcome: CheckOutcome; readonly then: string } | null = null,
): string => {
  const others = same === null ? outcomes : outcomes.filter((outcome) => outcome !== same.outcome);
  const clauses = effectsTold(feature, others, now, same === null);
  if (same === null) return clauses === null ? nothingAlone : sentence(clauses);
  return sentence([`if it reads the same, ${same.then}`, ...(clauses ?? [])]);
};

export const nothingAlone = 'No likely reading of it settles anything by itself.';

const sentence = (clauses: readonly string[]): string => `${capital(clauses.join('; '))}.`;

/** Clauses without a full stop; null where nothing is changed. @param fresh whether they begin the sentence */
const effectsTold = (feature: Feature, outcomes: readonly CheckOutcome[], now: SaidNow, fresh: boolean): string[] | null => {
  const { claimed, claim } = now;
  const keyOfName = ({ honest }: CheckOutcome): string => honest.map(({ name }) => name).join();
  if (claimed !== null && claim !== null && outcomes.some((one) => one.claim !== claim)) {
    return groups(outcomes, (one) => String(one.claim), String(claim)).map((group, at) =>
      clause(feature, group, claimBecomes(at === 0 ? claimed : 'it', claim, (group[0] as CheckOutcome).claim), at === 0 && fresh),
    );
  }
  if (outcomes.some((one) => keyOfName(one) !== now.honest.join()))
    return groups(outcomes, keyOfName, now.honest.join()).map((group, at) =>
      clause(feature, group, narrowed(group, now) ?? nameBecomes(group[0] as CheckOutcome, now.honest), at === 0 && fresh),
    );
  const reopening = outcomes.filter(({ reopens }) => reopens.length > 0);
  if (reopening.length > 0)
    return groups(reopening, ({ reopens }) => reopens[0]?.text ?? '', '').map((group, at) =>
      clause(feature, group, openAgain(group), at === 0 && fresh),
    );
  if (now.open > 0 && outcomes.some(({ open }) => open !== now.open))
    return groups(outcomes, ({ open }) => String(open), String(now.open)).map((group, at) =>
      clause(feature, group, openLeft((group[0] as CheckOutcome).open, now.open, at === 0), at === 0 && fresh),
    );
  return null;
};

/** Outcomes that do the same, those that change something first, then by likelihood. */
const groups = (outcomes: readonly CheckOutcome[], keyOf: (one: CheckOutcome) => string, unchanged: string): CheckOutcome[][] => {
  const found = new Map<string, CheckOutcome[]>();
  for (const one of outcomes) found.set(keyOf(one), [...(found.get(keyOf(one)) ?? []), one]);
  const weight = (group: readonly CheckOutcome[]): number => group.reduce((sum, { chance }) => sum + chance, 0);
  return [...found]
    .sort(([a, some], [b, others]) => Number(a === unchanged) - Number(b === unchanged) || weight(others) - weight(some))
    .map(([, group]) => group)
    .slice(0, told);
};

const clause = (feature: Feature, group: readonly CheckOutcome[], then: string, first: boolean): string =>
  `${ifItReads(
    feature,
    group.flatMap(({ readings }) => readings),
    first,
  )}, ${then}`;

const claimBecomes = (who: string, now: Status, then: Status | null): string => {
  switch (then) {
    case 'ruled out':
      return now === then ? `${who} stays out` : `${who} is out`;
    case 'stands':
      return now === then ? `${who} still stands` : `${who} stands`;
    default:
      return now === 'open' ? `${who} stays open` : `${who} is open again`;
  }
};

const openAgain = ([first]: readonly CheckOutcome[]): string => {
  const [best, ...others] = (first as CheckOutcome).reopens;
  const name = best?.text ?? '';
  if (others.length === 0) return `${name} is open again`;
  return `${name} and ${others.length === 1 ? 'one more name' : `${others.length} more names`} are open again`;
};

/** Of outcomes that leave the honest name: how many of the names still open each of them leaves; null where some leave more than others, or all. */
const narrowed = (group: readonly CheckOutcome[], { honest, open }: SaidNow): string | null => {
  const [{ honest: then, open: left }] = group as [CheckOutcome, ...CheckOutcome[]];
  const stays = then.map(({ name }) => name).join() === honest.join();
  return stays && left < open && group.every((one) => one.open === left) ? openLeft(left, open, true) : null;
};

const nameBecomes = ({ honest }: CheckOutcome, now: readonly NameId[]): string => {
  const none = honest.every(({ name }) => (name as string) === 'parts');
  if (honest.map(({ name }) => name).join() === now.join()) return none ? 'no name stands yet' : 'the honest name stays';
  if (none) return 'no name stands any more';
  return `the honest name is ${list(
    honest.map(({ text }) => text),
    'or',
  )}`;
};

const openLeft = (left: number, now: number, first: boolean): string => {
  const say = (many: number): string => (now > wordsUpTo ? String(many) : numberInWords(many));
  const of = first ? ` of the ${say(now)} open ${now === 1 ? 'name' : 'names'}` : '';
  if (left === 0) return first ? (now === 1 ? 'the one open name is ruled out' : `none${of} is left`) : 'none';
  return left >= now ? (now === 1 ? 'it stays open' : 'all stay open') : `${say(left)}${of} ${left === 1 ? 'is' : 'are'} left`;
};
