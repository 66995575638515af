import type { Feature, Model, TokenPromise } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../atlas/compile.ts';
import type { NameId } from '../ids.ts';
import { fullName, serviceNameId } from '../names/compile-names.ts';
import { type ReadToken, readingOf, readText } from '../names/read-name.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import type { Unit } from '../unit/unit.ts';
import { claimSentences, promiseSentence } from '../words/claim-sentences.ts';
import { truthAmong } from './truth-among.ts';
import type { ClaimAnswer, NameAnswer, Reading } from './verdict.ts';

/** The name the claim stands or falls with: the weakest that still says it is the claimed model; null when the claim is no model of the atlas. */
export const claimedName = (atlas: CompiledAtlas, sheet: Pick<Sheet, 'claimed' | 'claimedMaker'>): NameId | null => {
  const text = sheet.claimed?.trim() ?? '';
  if (text === '') return null;
  const { model } = readingOf(atlas, readText(atlas, text, sheet.claimedMaker), text);
  return model === null ? null : serviceNameId(model);
};

/** The claimed name read (N6), its promises tested, and its status; null when nothing is claimed. */
export const claimOf = (unit: Unit, answers: ReadonlyMap<NameId, NameAnswer>): ClaimAnswer | null => {
  const text = unit.sheet.claimed?.trim() ?? '';
  if (text === '') return null;
  const read = readText(unit.atlas, text, unit.sheet.claimedMaker);
  const plain = readingOf(unit.atlas, read, text);
  const reading: Reading = {
    ...plain,
    tokens: plain.tokens.map((token, i) => ({ ...token, promises: promisesOf(unit, read.tokens[i] as ReadToken) })),
  };
  const name = reading.model === null ? null : serviceNameId(reading.model);
  const answer = name === null ? undefined : answers.get(name);
  const broken = reading.tokens.some(({ promises }) => promises.some(({ truth }) => truth === 'fails'));
  const status = answer?.status ?? (reading.verdict === 'well formed, not in the atlas' && !broken ? 'open' : 'ruled out');
  const spoken = reading.model === null ? text : fullName(unit.atlas, unit.atlas.models.get(reading.model) as Model);
  return { text, reading, name, status, sentences: claimSentences(unit, spoken, reading, status, answer ?? null) };
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
