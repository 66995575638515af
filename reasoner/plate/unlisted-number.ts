import { agrees } from '../atlas/agree.ts';
import type { Feature, Maker, Model, Part } from '../atlas/atlas.ts';
import { isNamed } from '../atlas/maker-names.ts';
import type { Era, NumberRead } from '../atlas/number-pattern.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { MakerId, ModelId, ObservationId } from '../ids.ts';
import { sameMark } from '../plain/letters.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { meet, overlap, spanOf } from './era.ts';
import { modelsOf, partsNumbered } from './part-index.ts';
import { readNumber } from './read-number.ts';

/**
 * A plate whose number is made as a maker makes its plates' numbers and is of no part the atlas lists (O5): a candidate of the plate's slot
 * beside the listed ones, which fits whatever it is on.
 */
export interface UnlistedNumber {
  readonly observations: readonly ObservationId[];
  /** Whose plate it can be; more than one where nothing tells them apart. */
  readonly makers: readonly MakerId[];
  /** Whether they make their numbers so; else how they do nobody has said. */
  readonly patterned: boolean;
  /** Models of which it is not known whether it is theirs. That it is of any other it is known that it is not. */
  readonly models: ReadonlySet<ModelId>;
}

/** The candidate a sheet's plate is, or null: it has no number, a listed one, one that nobody makes so, or does not agree with itself. */
export const unlistedNumber = (atlas: CompiledAtlas, sheet: Sheet): UnlistedNumber | null => {
  const slot = atlas.slots.find((each) => each.data.group === 'plate');
  if (slot === undefined || sheet.absent.includes(slot.data.id)) return null;
  const seen = sheet.observations.filter((observation) => observation.slot === slot.data.id && observation.sure.kind !== 'told');
  const stamped = stampedOn(atlas, seen);
  const [number] = stamped.numbers;
  if (number === undefined || stamped.numbers.some((one) => isListed(atlas, slot.parts, one))) return null;
  const text = textOf(number);
  const makers = makersOf(atlas, stamped, text);
  const models = new Set<ModelId>();
  const whose: MakerId[] = [];
  for (const maker of makers) {
    const plates = slot.parts.filter((part) => part.maker === maker.id);
    const alike = plates.filter((part) => agreesElsewhere(atlas, stamped, part));
    const readings = (partNumberPatterns(maker)?.flatMap((pattern) => rightly(readNumber(pattern, text))) ?? [null]).filter(
      (read) => read === null || read.slot === null || read.slot === slot.data.id,
    );
    const told = readings.flatMap((read) => {
      const time = timeOf(stamped, maker, read);
      return time === null ? [] : [{ read, time }];
    });
    if (told.length === 0 || (plates.length > 0 && alike.length === 0)) continue;
    whose.push(maker.id);
    for (const { read, time } of told) {
      for (const model of modelsFor(atlas, maker, { plates, alike, read, time })) models.add(model.id);
    }
  }
  if (whose.length === 0) return null;
  const patterned = makers.some((maker) => whose.includes(maker.id) && partNumberPatterns(maker) !== null);
  return { observations: stamped.numbers.map(({ id }) => id), makers: whose, patterned, models };
};

/** What was seen of a plate, by what it says. */
interface StampedOn {
  readonly numbers: readonly Observation[];
  readonly serials: readonly string[];
  readonly tradeNames: readonly string[];
  readonly years: readonly Era[];
  /** What is read by no pattern: holes, fixing, a place left blank. */
  readonly others: readonly Observation[];
}

const stampedOn = (atlas: CompiledAtlas, seen: readonly Observation[]): StampedOn => {
  const says = ({ feature }: Observation): Feature['says'] => atlas.features.get(feature)?.says;
  const read = seen.filter((one) => says(one) !== undefined && (one.value.kind === 'count' || textOf(one) !== ''));
  const of = (what: Feature['says']) => read.filter((one) => says(one) === what);
  return {
    numbers: of('part number'),
    serials: of('serial number').map(textOf),
    tradeNames: of('trade name').map(textOf),
    years: of('year of make').flatMap(({ value }) => (value.kind === 'count' ? [{ from: value.from, to: value.to }] : [])),
    others: seen.filter((one) => !read.includes(one)),
  };
};

const textOf = ({ value }: Observation): string => (value.kind === 'mark' ? (value.text ?? '') : '');

/** Whether a part has the number, or a plate is known to bear it. */
const isListed = (atlas: CompiledAtlas, plates: readonly Part[], number: Observation): boolean =>
  partsNumbered(atlas, textOf(number)).length > 0 ||
  plates.some((part) => {
    const fact = part.facts[number.feature];
    return fact?.kind === 'mark' && fact.anyOf.some((letters) => sameMark(letters, textOf(number)));
  });

/** How a maker makes its part numbers; null where nobody has said. */
const partNumberPatterns = ({ numbering }: Maker) => {
  const patterns = (numbering ?? []).filter(({ says }) => says === 'part number');
  return patterns.length === 0 ? null : patterns;
};

const rightly = (reads: readonly NumberRead[]): NumberRead[] =>
  reads.filter(({ check }) => check === null || check.stamped === check.wanted);

/**
 * Whose number it can be: of the makers the trade names name, else of all, those with a pattern that reads it. A maker whose patterns nobody
 * has given is held to none (A5): it can be that maker's where it is named, or where no known pattern reads the number.
 */
const makersOf = (atlas: CompiledAtlas, { tradeNames }: StampedOn, text: string): readonly Maker[] => {
  const asked = atlas.data.makers.filter((maker) => tradeNames.every((name) => isNamed(maker, name)));
  const reading = asked.filter((maker) => partNumberPatterns(maker)?.some((pattern) => rightly(readNumber(pattern, text)).length > 0));
  const unknown = asked.filter((maker) => partNumberPatterns(maker) === null);
  if (tradeNames.length > 0) return [...reading, ...unknown];
  return reading.length > 0 ? reading : unknown;
};

/** The time everything on the plate tells together, open where it tells none; null where two of them have no year in common, or a serial number is not the maker's. */
const timeOf = ({ serials, tradeNames, years }: StampedOn, maker: Maker, read: NumberRead | null): Era | null => {
  const eras: Era[] = [...years, ...(read === null ? [] : [read.made])];
  for (const name of tradeNames) {
    const used = maker.tradeNames.filter((each) => sameMark(each.name, name));
    if (used.length > 0) eras.push(spanOf(used));
  }
  const patterns = (maker.numbering ?? []).filter(({ says }) => says === 'serial number');
  for (const serial of serials) {
    if (patterns.length === 0) continue;
    const reads = patterns.flatMap((pattern) => rightly(readNumber(pattern, serial)));
    if (reads.length === 0) return null;
    eras.push(spanOf(reads.map(({ made }) => made)));
  }
  return eras.reduce<Era | null>((time, era) => (time === null ? null : overlap(time, era)), { from: null, to: null });
};

/** Whether a listed plate agrees with what was seen of this one that no pattern reads. */
const agreesElsewhere = (atlas: CompiledAtlas, { others }: StampedOn, part: Part): boolean =>
  others.every((one) => {
    const feature = atlas.features.get(one.feature) as Feature;
    return agrees(feature, part.facts[feature.id] ?? { kind: 'not known' }, one) !== 'fails';
  });

interface Reading {
  readonly plates: readonly Part[];
  /** Those of them that agree with what no pattern reads. */
  readonly alike: readonly Part[];
  readonly read: NumberRead | null;
  readonly time: Era;
}

/**
 * The maker's models it can be of: built at the time, with a plate like it if they list any; and where the number differs from that of listed
 * plates in its issue alone, theirs.
 */
const modelsFor = (atlas: CompiledAtlas, maker: Maker, { plates, alike, read, time }: Reading): readonly Model[] => {
  const sameDrawing = read === null ? [] : plates.filter((part) => part.numbers.some((number) => differsInIssue(read, number)));
  const ofDrawing = new Set(sameDrawing.flatMap((part) => modelsOf(atlas, part)));
  const [plated, like] = [plates, alike].map((parts) => new Set(parts.flatMap((part) => modelsOf(atlas, part)))) as [
    Set<Model>,
    Set<Model>,
  ];
  return atlas.data.models.filter((model) => {
    const family = atlas.families.get(model.family);
    if (family?.maker !== maker.id) return false;
    const built = model.from === null && model.to === null ? family : model;
    if (!meet({ from: built.from, to: built.to }, time)) return false;
    if (sameDrawing.length > 0 && !ofDrawing.has(model)) return false;
    return !plated.has(model) || like.has(model);
  });
};

/** Whether another number, which is not the same, is read by the same pattern and says the same in every piece but its issue. */
const differsInIssue = (read: NumberRead, number: string): boolean => {
  const { pieces } = read.pattern;
  return readNumber(read.pattern, number).some(({ texts }) =>
    pieces.every((piece, i) => (piece.kind === 'digits' && piece.issue === true) || texts[i] === read.texts[i]),
  );
};
