import type { ClaimRead, NameAnswer, Reading, Status } from '../answer/verdict.ts';
import type { Feature, Model } from '../atlas/atlas.ts';
import { fullName } from '../compile/name-texts.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { ModelId, SlotId } from '../ids.ts';
import { reasonsPhrase } from '../plain/reasons-phrase.ts';
import { capital, list } from '../plain/text.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { Truth } from '../truth.ts';
import type { Unit } from '../unit/unit.ts';
import { hasPhrase } from './has-phrase.ts';
import { lacksPhrases } from './lacks-phrase.ts';

/** What became of a claim. */
export interface ClaimTold {
  readonly reading: Reading;
  readonly status: Status;
  readonly answer: NameAnswer | null;
  /** Entries each of which everything against it rests on. */
  readonly restsOn: readonly Observation[];
}

/**
 * Why the claimed name may or may not be carried, the status first (N1–N3, N6); before it the entries everything against it rests on, where there are such (O7). The
 * reasons themselves are its conflicts.
 */
export const claimSentences = (unit: Unit, spoken: string, told: ClaimTold): string[] => [
  ...restsOnSentence(unit, spoken, told.restsOn),
  ...statusSentences(unit, spoken, told),
];

const statusSentences = (unit: Unit, spoken: string, { reading, status, answer }: ClaimTold): string[] => {
  const broken = reading.tokens.flatMap(({ promises }) =>
    promises.filter(({ truth }) => truth === 'fails').map(({ sentence }) => sentence),
  );
  switch (reading.verdict) {
    case 'no maker’s name':
      return [`“${spoken}” is not a name any maker of the atlas gives.`, ...reading.faults.map(asSentence), ...nearest(unit, reading)];
    case 'no name of this maker':
      return [
        `“${spoken}” is no name of ${makerName(unit, reading)}.`,
        ...reading.faults.map(asSentence),
        ...broken,
        ...nearest(unit, reading),
      ];
    case 'well formed, not in the atlas':
      return [
        status === 'ruled out'
          ? `“${spoken}” is made as ${makerName(unit, reading)} makes its names, but the parts break what it promises.`
          : `“${spoken}” is made as ${makerName(unit, reading)} makes its names, but the atlas lists no such model.`,
        ...broken,
        ...nearest(unit, reading),
      ];
    case 'no rule to read it by':
      return [notKnown(unit, spoken, reading), ...reading.faults.map(asSentence), ...nearest(unit, reading)];
    case 'a model of the atlas':
      break;
  }
  switch (status) {
    case 'stands':
      return [`${spoken} stands: in every slot that makes the name, only parts listed for it agree with what was seen.`];
    case 'open':
      return [`${spoken} is open: ${list(openBecause(unit, answer), 'and')}.`];
    case 'ruled out': {
      const conflicts = answer?.conflicts ?? null;
      if (conflicts === null) return [`${spoken} is ruled out.`];
      return [`${spoken} is ruled out${conflicts.independent.count === 0 ? '' : `, for ${reasonsPhrase(conflicts.independent)}`}.`];
    }
  }
};

/** Where a maker's rule of names is not known, an unlisted text is neither a name nor none (A4). */
const notKnown = (unit: Unit, spoken: string, reading: Reading): string => {
  if (reading.maker !== null) {
    const maker = makerName(unit, reading);
    return `Whether “${spoken}” is a name of ${maker} is not known: the atlas lists no such model, and knows no rule by which ${maker} makes its names.`;
  }
  const unruled = unit.atlas.data.makers.filter(({ grammar }) => grammar === null).map(({ name }) => name);
  return `Whether “${spoken}” is a name is not known: no rule of names the atlas knows reads it, and it knows none of ${list(unruled, 'or')}.`;
};

/** So many of the models that bear one name are each told what became of it. */
export const sharersTold = 6;

/** A name several models bear: whose it is, and what became of each, those that fare best first; of many, what became of the rest in number. */
export const sharedName = (unit: Unit, text: string, reads: readonly ClaimRead[]): string => {
  const makers = [...new Set(reads.map(({ reading }) => `of ${makerName(unit, reading)}`))];
  const models = reads.map(({ reading }) => unit.atlas.models.get(reading.model as ModelId) as Model);
  const told = reads.length > sharersTold ? sharersTold - 1 : reads.length;
  const each = reads.slice(0, told).map(({ status }, i) => `${spokenAmong(unit, models[i] as Model, models)} ${statusWords[status]}`);
  const rest = reads.slice(told);
  const others = (['stands', 'open', 'ruled out'] as const).flatMap((status) => {
    const count = rest.filter((read) => read.status === status).length;
    return count === 0 ? [] : [`${count} more ${count === 1 ? statusWords[status] : statusWordsOfSome[status]}`];
  });
  const whose = makers.length === 1 ? `the name of ${reads.length} models ${makers[0]}` : `a name ${list(makers)}`;
  return `“${text}” is ${whose}, and is judged for each: ${list([...each, ...others])}.`;
};

/** A model's full name; with its family where another of these has the same. */
export const spokenAmong = ({ atlas }: Unit, model: Model, models: readonly Model[]): string => {
  const name = fullName(atlas, model);
  const alone = models.every((other) => other === model || fullName(atlas, other) !== name);
  return alone ? name : `${name} (${atlas.families.get(model.family)?.name ?? model.family})`;
};

const statusWords: Readonly<Record<Status, string>> = { stands: 'stands', open: 'is open', 'ruled out': 'is ruled out' };
const statusWordsOfSome: Readonly<Record<Status, string>> = { stands: 'stand', open: 'are open', 'ruled out': 'are ruled out' };

/** N2: what looking could settle, and what the atlas itself lacks (A7). */
const openBecause = (unit: Unit, answer: NameAnswer | null): string[] => {
  const named = (slots: readonly SlotId[]) => slots.map((id) => slotNameOf(unit.atlas, id));
  const unsettled = named(answer?.unsettled ?? []);
  return [
    ...(unsettled.length === 0
      ? []
      : [`${list(unsettled.map((slot) => `the ${slot}`))} ${unsettled.length === 1 ? 'is' : 'are'} not settled`]),
    ...lacksPhrases(unit, answer?.lacks ?? []),
  ];
};

/** O7: said before anything else of a claim; nothing where it rests on no single entry. */
export const restsOnSentence = (unit: Unit, spoken: string, entries: readonly Observation[]): string[] => {
  if (entries.length === 0) return [];
  const readings = list(entries.map((entry) => readingPhrase(unit, entry)));
  return [
    entries.length === 1
      ? `Everything against ${spoken} rests on this reading: ${readings}. Look again.`
      : `Everything against ${spoken} rests on ${entries.length === 2 ? 'both' : 'all'} of these readings: ${readings}. Look again: if one of them is wrong, it is no longer ruled out.`,
  ];
};

/** `the turbine wheel has 11 blades` */
const readingPhrase = (unit: Unit, entry: Observation): string => {
  const slot = slotNameOf(unit.atlas, entry.slot);
  return `the ${slot} has ${hasPhrase(unit.atlas.features.get(entry.feature) as Feature, entry)}`;
};

const makerName = (unit: Unit, reading: Reading): string =>
  reading.maker === null ? 'no maker' : (unit.atlas.makers.get(reading.maker)?.name ?? reading.maker);

const nearest = (unit: Unit, reading: Reading): string[] => {
  const names = reading.nearest.slice(0, 3).map((id) => fullName(unit.atlas, unit.atlas.models.get(id) as Model));
  if (names.length === 0) return [];
  return [names.length === 1 ? `The nearest name that exists is ${names[0]}.` : `The nearest names that exist are ${list(names)}.`];
};

const asSentence = (fault: string): string => (/[.!?]$/.test(fault) ? capital(fault) : `${capital(fault)}.`);

/** What one token promises and what became of it. */
export const promiseSentence = (
  unit: Unit,
  token: string,
  feature: Feature,
  alternatives: readonly Pick<Observation, 'value' | 'sure'>[],
  truth: Truth,
): string => {
  const slot = slotNameOf(unit.atlas, feature.slot);
  const what = list(
    alternatives.map((each) => hasPhrase(feature, each)),
    'or',
  );
  const promise = `“${token}” promises a ${slot} with ${what}`;
  switch (truth) {
    case 'holds':
      return `${promise}: so it is, by what was seen.`;
    case 'fails':
      return `${promise}: what was seen rules that out.`;
    case 'not known':
      return `${promise}: not seen yet.`;
  }
};
