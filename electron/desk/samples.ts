import { caseSource, type Edit, freeId, idFor, type KeptSample, type Outcome, type Store, type Version } from '../../db/index.ts';
import {
  asId,
  type Fact,
  type FeatureId,
  type FeatureSamples,
  factOfSamples,
  type PartId,
  partFromEntries,
  type Sheet,
  type SheetId,
  type SourceId,
  samplesIn,
  statisticsOf,
} from '../../reasoner/index.ts';
import { dayInWords } from '../../reasoner/plain/day-in-words.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { SamplesOfPart } from '../bridge/sample-calls.ts';

/** From the counter into the atlas. */
export const sampleCalls = (store: Store): Calls<'samples'> => ({
  'samples.of': ({ part }) => samplesOfPart(store, part),
  'samples.keep': async ({ sheet, version, slot, part, who }) => {
    const read = await caseAt(store, sheet, version);
    if (!read.ok) return read;
    const featureOf = await features(store);
    if (!featureOf.ok) return featureOf;
    const how = new Map(read.value.sheet.observations.map(({ id, instrument = '' }) => [id, instrument]));
    const samples = samplesIn(read.value.sheet, slot, featureOf.value).map((one) => ({ ...one, how: how.get(one.entry) ?? '' }));
    return store.samples.keep({ part, slot, sheet, version, samples }, who);
  },
  'samples.takeOut': ({ sample, who }) => store.samples.takeOut(sample, who),
  'samples.word': async ({ part, feature }) => {
    const kept = await store.samples.of(part);
    if (!kept.ok) return kept;
    const standing = kept.value.filter((one) => one.out === null && one.feature === feature);
    const [samples] = statisticsOf(standing);
    if (samples === undefined)
      return refusal('not-found', `part ${part}`, 'Nothing of this was measured here, so there is nothing to take. Nothing was changed.');
    const { fact } = factOfSamples(samples);
    if (fact === null)
      return refusal(
        'sample-unfit',
        `part ${part}`,
        'The samples disagree: they cannot all be of one part. Take out what is not of it first. Nothing was changed.',
      );
    const held = await store.changes.entry('parts', part);
    if (!held.ok) return held;
    const { facts, factSources } = held.value.entry as { readonly facts: object; readonly factSources?: object };
    const source = asId<SourceId>(`samples-${idFor(part, feature)}`.slice(0, 120));
    const title = sampleSource(samples, standing);
    const edits: Edit[] = [
      { list: 'sources', put: { id: source, title, kind: 'measured in the shop' } },
      {
        list: 'parts',
        put: { ...held.value.entry, facts: { ...facts, [feature]: fact }, factSources: { ...factSources, [feature]: source } },
      },
    ];
    return well({ edits, source: title });
  },
  'samples.newPart': async ({ sheet, version, slot, named }) => {
    const read = await caseAt(store, sheet, version);
    if (!read.ok) return read;
    const featureOf = await features(store);
    if (!featureOf.ok) return featureOf;
    const file = await store.cases.open(sheet, null);
    if (!file.ok) return file;
    const source = caseSource(file.value.number, sheet);
    const title = `Case ${file.value.number}, seen by ${file.value.lookedBy || file.value.history.at(-1)?.who || 'somebody who did not say'}, opened ${dayInWords(file.value.openedOn)}`;
    const wanted = idFor(named.maker ?? '', named.name);
    const taken = new Set<string>();
    for (let id = wanted; (await store.changes.entry('parts', id)).ok; id = freeId(wanted, (one) => taken.has(one))) taken.add(id);
    const found = partFromEntries(
      read.value.sheet,
      slot,
      { ...named, id: asId<PartId>(freeId(wanted, (one) => taken.has(one))), source },
      featureOf.value,
    );
    if (Object.keys(found.part.facts).length === 0)
      return refusal(
        'sample-unfit',
        `sheet ${sheet}`,
        'Nothing of this part was seen or measured, so nothing can be said of it. Enter what it shows first. Nothing was changed.',
      );
    const known = await store.changes.entry('sources', source);
    const edits: Edit[] = [
      ...(known.ok ? [] : [{ list: 'sources', put: { id: source, title, kind: 'measured in the shop' } }]),
      { list: 'parts', put: { ...found.part } },
    ];
    return well({ ...found, edits, source: title });
  },
});

/** What was measured here of a part, and what that says. */
export const samplesOfPart = async ({ samples, changes }: Store, part: PartId): Promise<Outcome<SamplesOfPart>> => {
  const known = await changes.entry('parts', part);
  const kept = await samples.of(part);
  if (!kept.ok) return kept;
  // What was measured stays when its part is taken out of the atlas with a pack.
  if (!known.ok && kept.value.length === 0) return known;
  const cases = await samples.casesOf(part);
  if (!cases.ok) return cases;
  const words = known.ok ? known.value.words : [];
  const features = statisticsOf(kept.value.filter(({ out }) => out === null)).map((one) => ({
    ...one,
    word: factOfSamples(one),
    pack: packFact(words.find(({ field, line }) => field === 'facts' && line === one.feature)?.said ?? null),
  }));
  return well({ samples: kept.value, features, cases: cases.value });
};

/** A line of facts as a cell says it, without its source. */
const packFact = (said: unknown): Fact | null => {
  if (said === null) return null;
  const { source: _source, ...fact } = said as Fact & { readonly source?: string };
  return fact as Fact;
};

/** The case as it is saved, where that is what was read. */
const caseAt = async ({ sheets }: Store, id: SheetId, version: Version): Promise<Outcome<{ readonly sheet: Sheet }>> => {
  const opened = await sheets.opened(id);
  if (!opened.ok) return opened;
  if (opened.value.saved === null)
    return refusal('not-found', `sheet ${id}`, 'This sheet is no case yet: save it first. Nothing was changed.');
  if (opened.value.version !== version)
    return refusal(
      'changed-since',
      `sheet ${id}`,
      'The case was saved elsewhere since it was opened here. Nothing was changed. Look at it again, then decide.',
    );
  return well({ sheet: opened.value.sheet });
};

const features = async ({ atlas }: Store) => {
  const vocabulary = await atlas.vocabulary();
  if (!vocabulary.ok) return vocabulary;
  const byId = new Map(vocabulary.value.features.map((feature) => [feature.id, feature]));
  return well((feature: FeatureId) => byId.get(feature));
};

const mostNamed = 40;

/** `7 samples of cases A-2026-0001, A-2026-0003` */
const sampleSource = (samples: FeatureSamples, standing: readonly KeptSample[]): string => {
  const sheets =
    samples.kind === 'measure' ? samples.specimens.map(({ sheet }) => sheet) : samples.tallies.flatMap((tally) => tally.sheets);
  const numbers = [...new Set(standing.map(({ number }) => number))].sort();
  const n = new Set(sheets).size;
  const rest = numbers.length - mostNamed;
  return `${n === 1 ? 'One sample of case' : `${n} samples of cases`} ${numbers.slice(0, mostNamed).join(', ')}${rest > 0 ? ` and ${rest} more` : ''}`;
};
