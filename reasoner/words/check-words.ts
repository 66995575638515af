import type { Check, PossibleReading } from '../answer/odds.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { size } from '../plain/sizes.ts';
import { capital, list } from '../plain/text.ts';
import type { Observation } from '../sheet/sheet.ts';
import { optionName, seenPhrase } from './phrases.ts';

/** Where to look, with what and when: `Measure the inducer diameter of the compressor wheel with a caliper, compressor housing off.` */
export const howToTake = (atlas: CompiledAtlas, slot: CompiledSlot, feature: Feature, check: Pick<Check, 'opening'>): string => {
  const stage = atlas.stages.get(feature.stage)?.name ?? feature.stage;
  const opening = check.opening.flatMap((id) =>
    id === feature.stage || atlas.stages.get(id)?.minutes === 0 ? [] : [atlas.stages.get(id)?.name ?? id],
  );
  const first = opening.length === 0 ? '' : ` (first ${list(opening)})`;
  const blank = feature.kind === 'mark' ? ', or that there are no letters' : '';
  return `${lookAt(slot, feature)}${blank}, ${stage}${first}.`;
};

/** The same in few words, for one line: `Count the blades of the turbine wheel`; how far the unit must be opened for it stands behind it. */
export const howToTakeBriefly = (atlas: CompiledAtlas, slot: CompiledSlot, feature: Feature, check: Pick<Check, 'opening'>): string =>
  `${lookAt(slot, feature)}${check.opening.length === 0 ? '' : `, ${atlas.stages.get(feature.stage)?.name ?? feature.stage}`}`;

/** Which entry to read again, in few words: `Read again: the blades of the turbine wheel`. */
export const readAgainBriefly = (slot: CompiledSlot, feature: Feature): string =>
  `Read again: the ${feature.name} of the ${slot.data.name}`;

/** Which entries to read again: `Read again: the blade count of the turbine wheel, entered as 11 blades.` @param entries of the feature, one at least */
export const howToReadAgain = (slot: CompiledSlot, feature: Feature, entries: readonly Observation[]): string =>
  `Read again: ${entryPhrase(slot, feature, entries)}.`;

/** Entries of one feature: `the blade count of the turbine wheel, entered as 11 blades`. */
export const entryPhrase = (slot: CompiledSlot, feature: Feature, entries: readonly Observation[]): string =>
  `the ${feature.name} of the ${slot.data.name}, entered as ${list([...new Set(entries.map((entry) => enteredAs(feature, entry)))])}`;

/** The value alone: its feature was named before it. */
const enteredAs = (feature: Feature, entry: Observation): string => {
  const { value } = entry;
  switch (value.kind) {
    case 'count':
    case 'measure':
      return seenPhrase(feature, entry).replace(`${feature.name} `, '');
    case 'choice':
      return optionName(feature, value.option);
    case 'presence':
      return value.present ? 'there' : 'not there';
    case 'mark':
      return value.text === null ? 'no letters' : `“${value.text}”`;
  }
};

const lookAt = (slot: CompiledSlot, feature: Feature): string => {
  const of = `of the ${slot.data.name}`;
  const where = `the ${feature.name} ${of}`;
  switch (feature.kind) {
    case 'measure':
      return `Measure ${where}${feature.instrument === undefined ? '' : ` with ${article(feature.instrument)}`}`;
    case 'count':
      return feature.unit === undefined || feature.unit === 'year'
        ? `Read ${where}`
        : `Count the ${counted(feature.name, feature.unit)} ${of}`;
    case 'mark':
      return `Read ${where}`;
    case 'choice':
      return `Look at ${where}`;
    case 'presence':
      return `Look for ${where}`;
  }
};

/** What is counted, where the feature is called a count of it: `blade count` is counted as `blades`, `bolt count at the backplate` as `bolts at the backplate`. */
const counted = (name: string, unit: string): string => {
  const [, one, rest] = /^(.+) count\b(.*)$/.exec(name) ?? [];
  if (one === undefined || rest === undefined) return name;
  const before = one.split(' ').slice(0, -1);
  return `${[...before, unit.split(' ').at(-1)].join(' ')}${rest}`;
};

/** Plurals stand without one: `section templates`. */
const article = (instrument: string): string =>
  instrument.endsWith('s') && !instrument.endsWith('ss') ? instrument : `${/^[aeiou]/i.test(instrument) ? 'an' : 'a'} ${instrument}`;

/** One or more readings of a feature: `10 or 11 blades`, `the letters “mauve” (cast size mark)`, `inducer diameter 41.2 to 41.5 mm`. */
export const readingPhrase = (feature: Feature, readings: readonly PossibleReading[]): string => {
  const texts = readings.flatMap(({ seen }) => (seen?.kind === 'mark' && seen.text !== null ? [`“${seen.text}”`] : []));
  const sizes = readings.filter(({ seen }) => seen?.kind === 'measure');
  const others = readings.filter(({ seen }) => seen?.kind !== 'measure' && (seen?.kind !== 'mark' || seen.text === null));
  const letters = texts.length === 0 ? [] : [`the letters ${list(texts, 'or')} (${feature.name})`];
  return list([...letters, ...[...joined(sizes), ...others].map((reading) => phrase(feature, reading))], 'or');
};

/** Ranges of sizes from small to large, those that touch as one. */
const joined = (sizes: readonly PossibleReading[]): PossibleReading[] => {
  const ranges: PossibleReading[] = [];
  for (const next of [...sizes].sort((a, b) => a.from - b.from)) {
    const last = ranges.at(-1);
    if (last !== undefined && next.from <= last.to) ranges[ranges.length - 1] = { ...last, to: Math.max(last.to, next.to) };
    else ranges.push(next);
  }
  return ranges;
};

const phrase = (feature: Feature, { seen, from, to }: PossibleReading): string => {
  if (seen === null) return feature.kind === 'mark' ? `letters of no listed part (${feature.name})` : `another ${feature.name}`;
  if (seen.kind !== 'measure') return seenPhrase(feature, { value: seen, sure: { kind: 'seen' } });
  const unit = feature.unit === 'deg' ? '°' : ` ${feature.unit ?? ''}`.trimEnd();
  const range =
    Number.isFinite(from) && Number.isFinite(to)
      ? `${size(from)} to ${size(to)}${unit}`
      : Number.isFinite(to)
        ? `below ${size(to)}${unit}`
        : Number.isFinite(from)
          ? `above ${size(from)}${unit}`
          : 'any size';
  return `${feature.name} ${range}`;
};

/** What an instrument must tell apart. */
export const stepSentence = (feature: Feature, gap: number, atMost: number): string => {
  const unit = feature.unit === 'deg' ? '°' : ` ${feature.unit ?? ''}`.trimEnd();
  return capital(
    `the nearest two sizes among what is left are ${size(gap)}${unit} apart: an instrument reading to ${Number(atMost.toPrecision(2))}${unit} or finer tells them apart.`,
  );
};
