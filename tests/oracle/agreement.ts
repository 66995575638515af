import {
  type Atlas,
  answer,
  type CompiledAtlas,
  type Contradicted,
  compileAtlas,
  explain,
  type NameAnswer,
  type Rung,
  rungs,
  type Sheet,
  type SlotId,
  type SwapSet,
  type Truth,
  type Verdict,
} from '../../reasoner/index.ts';
import { askClingo, type OracleAnswer, type OracleStatus, type OracleSwap } from './ask-clingo.ts';
import { claimedBy } from './claimed.ts';
import { machinedOnly, partsOfRows } from './machined.ts';
import { meanings, membersOf } from './meanings.ts';
import type { Case } from './random-atlas.ts';
import { contradictions, type Demand, minutesToExchange, type Question, readQuestion } from './reading.ts';
import { numberNotListed } from './reading-plate.ts';

/** One question both were asked and answered differently. */
export interface Disagreement {
  readonly seed: number;
  readonly about: string;
  readonly oracle: unknown;
  readonly reasoner: unknown;
}

export interface Tally {
  verdicts: number;
  contradicted: number;
  doubtful: number;
  /** Units whose plate has a number nobody lists (O5). */
  plates: number;
  /** Candidates that can only be machined, as the oracle has it. */
  machined: number;
  statuses: Record<OracleStatus, number>;
  honest: Partial<Record<Rung, number>>;
  conflicts: number;
  /** Names whose enumeration stopped before its end. */
  stopped: number;
  swaps: Record<OracleStatus, number>;
  claims: Record<OracleStatus, number>;
  promises: Record<Truth, number>;
}

export const emptyTally = (): Tally => ({
  verdicts: 0,
  contradicted: 0,
  doubtful: 0,
  plates: 0,
  machined: 0,
  statuses: { 'ruled out': 0, open: 0, stands: 0 },
  honest: {},
  conflicts: 0,
  stopped: 0,
  swaps: { 'ruled out': 0, open: 0, stands: 0 },
  claims: { 'ruled out': 0, open: 0, stands: 0 },
  promises: { holds: 0, fails: 0, 'not known': 0 },
});

/** Much more than the reasoner allows itself. Where that is not enough, what it found must be among what clingo finds. */
const plenty = { conflicts: 100_000, questions: 200_000 };

/** Puts one unit to the reasoner and to clingo; the answers are compared by meaning, never by the ids of names. */
export const compare = async (unit: Case, tally: Tally): Promise<Disagreement[]> => {
  const { seed, atlas, sheet } = unit;
  const found: Disagreement[] = [];
  const differ: Differ = (about, oracle, reasoner) => {
    if (JSON.stringify(oracle) !== JSON.stringify(reasoner)) found.push({ seed, about, oracle, reasoner });
  };
  const compiled = compileAtlas(atlas);
  const verdict = answer(compiled, sheet, { explain: 'models', effort: plenty });
  const pairs = verdict.kind === 'verdict' ? [] : verdict.contradictions.map((pair) => [...pair.observations].sort().join(' ')).sort();
  differ('O6 contradictions', contradictions(sheet), pairs);
  if (verdict.kind === 'contradiction') {
    tally.contradicted++;
    await compareMeanings(unit, verdict, differ);
    return found;
  }
  tally.verdicts++;
  const question = readQuestion(atlas, sheet);
  const oracle = await askClingo(question);
  compareSlots(question, oracle, verdict, differ);
  tally.plates += question.plate === null ? 0 : 1;
  const judged = compareNames(atlas, question, oracle, verdict, differ);
  compareClaim(unit, question, oracle, verdict, differ, tally);
  for (const name of judged) {
    if (name.expected.status === 'ruled out' && name.answer.status === 'ruled out') compareWhy(unit, compiled, name, differ, tally);
  }

  tally.doubtful += oracle.doubtful.length;
  for (const [slot, rows] of oracle.candidates) if (!oracle.doubtful.includes(slot)) tally.machined += machinedOnly(rows).length;
  for (const { expected } of judged) tally.statuses[expected.status]++;
  const rung = verdict.names.find(({ name }) => name.id === verdict.honest[0])?.name.rung ?? 'parts';
  tally.honest[rung] = (tally.honest[rung] ?? 0) + 1;
  return found;
};

type Differ = (about: string, oracle: unknown, reasoner: unknown) => void;

const sorted = (texts: Iterable<string>): string[] => [...texts].sort();

const compareSlots = ({ plate }: Question, oracle: OracleAnswer, verdict: Verdict, differ: Differ): void => {
  const notListed = verdict.slots.flatMap(({ numberNotListed: makers }) => (makers === null ? [] : [sorted(makers)]));
  differ('O5 whose a plate is that has a number nobody lists', plate === null ? [] : [plate.makers], notListed);

  const doubtful = verdict.slots.filter((slot) => slot.doubtful).map((slot) => slot.slot);
  differ('W, the doubtful slots', sorted(oracle.doubtful), sorted(doubtful));
  for (const { slot, candidates } of verdict.slots)
    differ(
      `C1, J1: candidates of ${slot}`,
      sorted(partsOfRows(oracle.candidates.get(slot) ?? []).filter((part) => part !== numberNotListed)),
      sorted(candidates),
    );
  const own = verdict.unit.found.map((conflict) => membersOf(conflict, null));
  differ('K1 the unit’s own conflicts', amongThese(oracle.unitConflicts, own, verdict.unit.complete), sorted(own));
};

const statusOfModel =
  (demands: Question['demands'], oracle: OracleAnswer) =>
  (model: string): OracleStatus => {
    const at = demands.findIndex(({ names }) => names.includes(`model with service parts replaced ${model}`));
    return oracle.demands[at]?.status as OracleStatus;
  };

/** O6: what each entry that disagrees would mean, asked of clingo on a sheet without all the others that do. */
const compareMeanings = async ({ atlas, sheet }: Case, { contradictions: pairs }: Contradicted, differ: Differ): Promise<void> => {
  const disputed = new Set(contradictions(sheet).flatMap((pair) => pair.split(' ')));
  for (const { meanings } of pairs) {
    for (const { observation, aside, left, claim } of meanings ?? []) {
      const kept = sheet.observations.find(({ id }) => id === observation);
      const others = [...disputed].filter((id) => id !== observation);
      const alone: Sheet = { ...sheet, observations: sheet.observations.filter(({ id }) => !others.includes(id)) };
      const question = readQuestion(atlas, alone);
      const oracle = await askClingo(question);
      const expected = claimedBy(atlas, alone, oracle, statusOfModel(question.demands, oracle));
      differ('O6 what is set aside', sorted(others), sorted(aside));
      const listed = partsOfRows(oracle.candidates.get(kept?.slot as SlotId) ?? []).filter((part) => part !== numberNotListed);
      differ('O6 what is left', listed.length, left);
      differ('O6 what the claim would be', expected?.status ?? null, claim?.status ?? null);
    }
  }
};

const compareClaim = (
  { atlas, sheet }: Case,
  { demands }: Question,
  oracle: OracleAnswer,
  { claim }: Verdict,
  differ: Differ,
  tally: Tally,
): void => {
  const expected = claimedBy(atlas, sheet, oracle, statusOfModel(demands, oracle));
  const read = claim === null ? [] : [claim, ...claim.others];
  differ(
    'N6 A4 the claim',
    expected && [expected.status, sorted(expected.models)],
    claim && [claim.status, sorted(read.flatMap(({ reading }) => reading.model ?? []))],
  );
  const promises = read.flatMap(({ reading }) => reading.tokens.flatMap((token) => token.promises.map(({ truth }) => truth)));
  differ('N6 what the claim promises', sorted(expected?.promises ?? []), sorted(promises));
  if (expected !== null) tally.claims[expected.status]++;
  for (const truth of promises) tally.promises[truth]++;
};

/** A name both judged. */
interface Judged {
  readonly meaning: string;
  readonly demand: Demand;
  readonly at: number;
  readonly answer: NameAnswer;
  readonly expected: OracleAnswer['demands'][number];
}

const compareNames = (atlas: Atlas, question: Question, oracle: OracleAnswer, verdict: Verdict, differ: Differ): Judged[] => {
  const said = verdict.names.flatMap((one) => meanings(one.name).map((meaning) => [meaning, one] as const));
  const answers = new Map(said);
  differ('N4 names said twice', [], sorted(said.filter(([meaning, one]) => answers.get(meaning) !== one).map(([meaning]) => meaning)));
  const expectedAt = (i: number) => oracle.demands[i] as OracleAnswer['demands'][number];
  const isFormed = (i: number) =>
    question.noneOf.every(
      ({ own, of }) => own !== i || (of.every((each) => expectedAt(each).status === 'ruled out') && expectedAt(i).status !== 'ruled out'),
    );
  const known = question.demands.flatMap((demand, i) =>
    isFormed(i) ? demand.names.map((meaning) => ({ meaning, demand, at: i, expected: expectedAt(i) })) : [],
  );
  const all = new Set(known.map(({ meaning }) => meaning));
  differ(
    'N4 names that are none',
    [],
    [...answers.keys()].filter((meaning) => !all.has(meaning)),
  );
  const unlisted = known.filter(({ meaning }) => !answers.has(meaning)).map(({ meaning, expected }) => `${meaning}: ${expected.status}`);
  // Of cores with a housing of stated origin not all are listed (SPEC, "Which hybrids are judged"). Every other name is, and every one that stands.
  differ(
    'N4 names not listed',
    [],
    unlisted.filter((text) => !/^(hybrid|core) .*:(own|family)/.test(text) || text.endsWith('stands')),
  );
  const live = (slot: SlotId) => oracle.candidates.get(slot) ?? [];
  if (!known.some(({ meaning, expected }) => /^(model|all parts)/.test(meaning) && expected.status !== 'ruled out')) {
    // Where a list is open-ended a housing may be of an origin that lists none that is left; such a name is not formed.
    const seen = known.filter(({ demand }) =>
      [...demand.allowed].every(([slot, parts]) => !demand.open.has(slot) || live(slot).some((part) => parts.has(part))),
    );
    differ(
      'N4 open hybrids not listed',
      [],
      seen
        .filter(({ meaning, expected }) => meaning.startsWith('hybrid') && expected.status === 'open' && !answers.has(meaning))
        .map(({ meaning }) => meaning),
    );
  }

  const judged = known.flatMap((name) => {
    const one = answers.get(name.meaning);
    return one === undefined ? [] : [{ ...name, answer: one }];
  });
  // Of a doubtful slot the page does not speak here; it is read as unsettled, as its part may be an unlisted one.
  const doubts = ({ allowed, open }: Demand) => {
    const kinds = (slot: SlotId) =>
      new Set(live(slot).map((part) => (allowed.get(slot)?.has(part) ? 1 : open.get(slot)?.has(part) === false ? 2 : 3)));
    const isFree = (slot: SlotId) => {
      const silent = allowed.get(slot)?.size === 0 && open.get(slot)?.size === 0;
      return open.has(slot) && oracle.doubtful.includes(slot) && (!question.absent.has(slot) || silent);
    };
    return {
      unsettled: [...allowed.keys()].filter((slot) => oracle.doubtful.includes(slot) || kinds(slot).size > 1),
      lacks: [...allowed.keys()].filter((slot) => isFree(slot) || kinds(slot).has(2)),
    };
  };
  for (const { meaning, expected, answer: one, demand, at } of judged) {
    differ(`N1–N3 status of ${meaning}`, expected.status, one.status);
    if (expected.status !== 'open') continue;
    const several = demand.mayStand ? undefined : question.several.find(({ own }) => own === at);
    const asked =
      several === undefined
        ? [demand]
        : several.of.filter((i) => expectedAt(i).status !== 'ruled out').map((i) => question.demands[i] as Demand);
    const all = asked.map(doubts);
    const gathered = (which: 'unsettled' | 'lacks') => sorted(new Set(all.flatMap((each) => each[which])));
    differ(`N2 unsettled of ${meaning}`, gathered('unsettled'), sorted(one.unsettled));
    differ(`N2 A7 what the atlas lacks of ${meaning}`, gathered('lacks'), sorted(one.lacks));
  }

  const standing = known.filter(({ expected }) => expected.status === 'stands').map(({ meaning }) => meaning);
  const rank = rankIn(atlas);
  const best = standing.reduce((first, meaning) => (before(rank(meaning), rank(first)) ? meaning : first));
  const honest = standing.filter((meaning) => String(rank(meaning)) === String(rank(best)));
  const meaningsOf = (ids: Verdict['honest']) => sorted(said.filter(([, one]) => ids.includes(one.name.id)).map(([meaning]) => meaning));
  differ('N4 the honest name', sorted(honest), meaningsOf(verdict.honest));
  differ('N4 the open names above it', sorted(openAbove(judged, best, rank)), meaningsOf(verdict.open));
  return judged;
};

/** `Verdict.open`: the highest level above the honest name that has any; the three model rungs are one level, each model there at its best. */
const openAbove = (judged: readonly Judged[], honest: string, rank: (meaning: string) => number[]): string[] => {
  const level = (meaning: string) => Math.max(rungOf(meaning), rungs.indexOf('model with service parts replaced'));
  const above = judged.filter(({ meaning, expected }) => expected.status === 'open' && before(rank(meaning), rank(honest)));
  const highest = Math.min(...above.map(({ meaning }) => level(meaning)));
  const open = above.map(({ meaning }) => meaning).filter((meaning) => level(meaning) === highest);
  const model = (meaning: string) => meaning.split(' ').at(-1);
  const better = (other: string, meaning: string) => model(other) === model(meaning) && rungOf(other) < rungOf(meaning);
  return highest > level('model') ? open : open.filter((meaning) => !open.some((other) => better(other, meaning)));
};

const rungOf = (meaning: string): number => {
  const longest = [...rungs].filter((rung) => meaning === rung || meaning.startsWith(`${rung} `)).sort((a, b) => b.length - a.length)[0];
  return rungs.indexOf(longest as Rung);
};

/** SPEC: rung first; within it fewer housings unidentified, then fewer of another family, then fewer of its own family but not its own; the whole family before its core. */
const rankIn =
  (atlas: Atlas) =>
  (meaning: string): number[] => {
    const models = meaning.split(' ')[1]?.split('+') ?? [];
    const own = new Set(atlas.models.filter(({ id }) => models.includes(id)).map(({ family }) => `${family}`));
    const families = [...meaning.matchAll(/:(family-\d+)/g)].map(([, family]) => family as string);
    return [
      rungOf(meaning),
      meaning.split(':unidentified').length,
      families.filter((family) => !own.has(family)).length,
      families.filter((family) => own.has(family)).length,
      meaning.endsWith(' core') ? 1 : 0,
    ];
  };

const before = (p: readonly number[], q: readonly number[]): boolean => {
  const at = p.findIndex((value, i) => value !== q[i]);
  return at >= 0 && (p[at] as number) < (q[at] as number);
};

const compareWhy = (
  { atlas, sheet }: Case,
  compiled: CompiledAtlas,
  { meaning, answer: { name }, expected }: Judged,
  differ: Differ,
  tally: Tally,
): void => {
  const { conflicts, swaps } = explain(compiled, sheet, name.id, plenty);
  differ(`S1 complete for ${meaning}`, true, swaps?.complete);
  if (conflicts?.complete !== true) tally.stopped++;
  const found = (conflicts?.found ?? []).map((conflict) => membersOf(conflict, name));
  differ(`K1 conflicts of ${meaning}`, amongThese(expected.conflicts, found, conflicts?.complete === true), sorted(found));
  const plates = new Set(atlas.slots.flatMap(({ id, group }) => (group === 'plate' ? [id] : [])));
  const wanted = expected.swaps.map((swap) => {
    const exchanged = new Map([...swap.parts].filter(([slot]) => !plates.has(slot)).map(([slot, rows]) => [slot, partsOfRows(rows)]));
    return inWords(
      swap,
      exchanged,
      swap.slots.filter((slot) => plates.has(slot)),
      minutesToExchange(atlas, [...exchanged.keys()]),
    );
  });
  const given = (swaps?.found ?? []).map((swap) =>
    inWords(swap, new Map(swap.parts.map(({ slot, parts }) => [slot, parts])), swap.plates, swap.minutes - swap.work),
  );
  differ(`S1 swaps of ${meaning}`, sorted(wanted), sorted(given));
  tally.conflicts += expected.conflicts.length;
  for (const swap of expected.swaps) tally.swaps[swap.leaves]++;
};

/** What should have been found: all of these; where the enumeration stopped and said so, those of them that were. */
const amongThese = (all: readonly string[], found: readonly string[], complete: boolean): readonly string[] =>
  complete ? all : all.filter((one) => found.includes(one));

/** One swap set as a line: what is put where, the plates only the maker can confirm, and what the name is then, judged anew. */
const inWords = (
  { leaves }: Pick<OracleSwap | SwapSet, 'leaves'>,
  parts: ReadonlyMap<SlotId, readonly string[]>,
  plates: readonly SlotId[],
  minutes: number,
): string => {
  const put = [...parts].map(([slot, list]) => `${slot} := ${sorted(list).join(' | ')}`);
  const confirmed = plates.map((slot) => `${slot} confirmed by its maker`);
  return `${sorted([...put, ...confirmed]).join('; ')}; ${minutes} min; then ${leaves}`;
};
