import type { ClaimAnswer, ClaimRead, NameAnswer, Reading, Status } from '../answer/verdict.ts';
import type { Feature, TokenPromise } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { serviceNameId } from '../compile/name-ids.ts';
import { modelsClaimed, type ReadText, type ReadToken, readingOf, readTexts } from '../grammar/read-name.ts';
import type { NameId } from '../ids.ts';
import type { Judged } from '../names/demand-table.ts';
import { findRule, type Ladder } from '../names/ladder.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import type { Unit } from '../unit/unit.ts';
import { entriesItRestsOn, entriesRulingOut, entriesThatNarrow } from '../why/rests-on.ts';
import { claimSentences, promiseSentence, restsOnSentence, sharedName, spokenAmong } from '../words/claim-sentences.ts';
import { truthAmong } from './truth-among.ts';

/** The names the claim stands or falls with: of each claimed model the weakest that still says it is that. */
export const claimedNames = (atlas: CompiledAtlas, sheet: Pick<Sheet, 'claimed' | 'claimedMaker'>): readonly NameId[] =>
  modelsClaimed(atlas, sheet).map(({ id }) => serviceNameId(id));

/** The same, judged, whether or not they are ruled out. */
export const claimedIn = (ladder: Ladder, { atlas, sheet }: Unit): readonly Judged[] =>
  claimedNames(atlas, sheet).flatMap((id) => ladder.named(id) ?? []);

const fares: readonly Status[] = ['stands', 'open', 'ruled out'];

/** Of several readings of one claim the status of the whole: it is ruled out when all are, and stands when one does. Null of none. */
export const bestStatus = (statuses: readonly Status[]): Status | null => fares.find((status) => statuses.includes(status)) ?? null;

/** The claimed name read (A4, N6), its promises tested, and its status; null when nothing is claimed. */
export const claimOf = (unit: Unit, answers: ReadonlyMap<NameId, NameAnswer>): ClaimAnswer | null => {
  const text = unit.sheet.claimed?.trim() ?? '';
  if (text === '') return null;
  const reads = readTexts(unit.atlas, text, unit.sheet.claimedMaker);
  const [first, ...others] = reads
    .map((read) => judgedRead(unit, text, read, reads, answers))
    .sort((a, b) => fares.indexOf(a.status) - fares.indexOf(b.status)) as [ClaimRead, ...ClaimRead[]];
  if (others.length === 0) return { text, ...first, others };
  const all = [first, ...others];
  // The claim is no longer ruled out when one of its readings is not.
  const restsOn = first.status === 'ruled out' ? new Set(all.flatMap((read) => read.restsOn)) : new Set();
  const entries = unit.slots.flatMap(({ observations }) => observations.filter(({ id }) => restsOn.has(id)));
  return {
    text,
    ...first,
    restsOn: entries.map(({ id }) => id),
    sentences: [...restsOnSentence(unit, `“${text}”`, entries), sharedName(unit, text, all), ...all.flatMap(({ sentences }) => sentences)],
    others,
  };
};

const judgedRead = (
  unit: Unit,
  text: string,
  read: ReadText,
  among: readonly ReadText[],
  answers: ReadonlyMap<NameId, NameAnswer>,
): ClaimRead => {
  const plain = readingOf(unit.atlas, read, text);
  const reading: Reading = {
    ...plain,
    tokens: plain.tokens.map((token, i) => ({ ...token, promises: promisesOf(unit, read.tokens[i] as ReadToken) })),
  };
  const name = reading.model === null ? null : serviceNameId(reading.model);
  const answer = name === null ? undefined : answers.get(name);
  const broken = reading.tokens.some(({ promises }) => promises.some(({ truth }) => truth === 'fails'));
  const maybe = reading.verdict === 'no rule to read it by' || (reading.verdict === 'well formed, not in the atlas' && !broken);
  const status = answer?.status ?? (maybe ? 'open' : 'ruled out');
  const spoken =
    read.model === null
      ? text
      : spokenAmong(
          unit,
          read.model,
          among.flatMap(({ model }) => model ?? []),
        );
  const entries = status === 'ruled out' ? restingOn(unit, name, reading, read.tokens) : [];
  return {
    reading,
    name,
    status,
    restsOn: entries.map(({ id }) => id),
    sentences: claimSentences(unit, spoken, { reading, status, answer: answer ?? null, restsOn: entries }),
  };
};

/** The entries everything against the claim rests on, each by itself (O7). What no maker calls anything is not ruled out by an entry. */
const restingOn = (unit: Unit, name: NameId | null, reading: Reading, tokens: readonly ReadToken[]): Observation[] => {
  const rule = name === null ? null : findRule(unit, name);
  if (rule) return entriesRulingOut(unit, rule);
  if (reading.verdict !== 'well formed, not in the atlas') return [];
  // What is promised is looked for in the entries of its feature, else in what is left of its slot, which an entry elsewhere may have narrowed across a joint.
  const promised = new Set(tokens.flatMap((token) => promisesOf(unit, token).map(({ feature }) => feature)));
  const narrowing = new Set(entriesThatNarrow(unit));
  const entries = unit.slots.flatMap(({ observations }) => observations.filter((one) => promised.has(one.feature) || narrowing.has(one)));
  return entriesItRestsOn(unit, entries, (without) =>
    tokens.some((token) => promisesOf(without, token).some(({ truth }) => truth === 'fails')),
  );
};

const promisesOf = (unit: Unit, read: ReadToken): Reading['tokens'][number]['promises'] =>
  read.token.promises.flatMap((promise) => {
    const feature = unit.atlas.features.get(promise.feature) as Feature;
    const alternatives = promised(promise, feature, read);
    if (alternatives.length === 0) return [];
    const truth = truthAmong(unit, promise.feature, alternatives);
    return [{ feature: promise.feature, truth, sentence: promiseSentence(unit, read.text, feature, alternatives, truth) }];
  });

/** What a token's text says the feature is; several when any of them keeps the promise. */
const promised = (promise: TokenPromise, feature: Feature, { text, number }: ReadToken): Pick<Observation, 'value' | 'sure'>[] => {
  switch (promise.kind) {
    case 'number':
      if (number === null) return [];
      return feature.kind === 'measure'
        ? [measureWithin(number, promise.within)]
        : [{ value: { kind: 'count', from: number - promise.within, to: number + promise.within }, sure: { kind: 'seen' } }];
    case 'measure': {
      const size = promise.of[text];
      return size === undefined ? [] : [measureWithin(size, promise.within)];
    }
    case 'choice':
      return (promise.of[text] ?? []).map((option) => ({ value: { kind: 'choice', option }, sure: { kind: 'seen' } }));
    case 'count': {
      const count = promise.of[text];
      return count === undefined ? [] : [{ value: { kind: 'count', from: count, to: count }, sure: { kind: 'seen' } }];
    }
  }
};

const measureWithin = (value: number, within: number): Pick<Observation, 'value' | 'sure'> => ({
  value: { kind: 'measure', value },
  sure: within > 0 ? { kind: 'measured', u: within / 2 } : { kind: 'seen' },
});
