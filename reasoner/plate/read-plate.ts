import type { PlateDisagreement, PlateReading, Stamped } from '../answer/plate-reading.ts';
import { agrees } from '../atlas/agree.ts';
import type { Feature, Maker, Model, Part } from '../atlas/atlas.ts';
import { isNamed, namesOfMaker } from '../atlas/maker-names.ts';
import type { Era, NumberRead } from '../atlas/number-pattern.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { modelsClaimed } from '../grammar/read-name.ts';
import type { MakerId, ObservationId, SlotId } from '../ids.ts';
import { sameMark } from '../plain/letters.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { meet, spanOf } from './era.ts';
import { lastSuccessorOf, modelsOf, partsNumbered, successorsOf } from './part-index.ts';
import { readNumber } from './read-number.ts';
import { unlistedNumber } from './unlisted-number.ts';

/** The part the plate is fixed to, as far as it was looked at: what was seen of it, and the listed parts that agree with that. */
export interface PlateHolder {
  readonly slot: SlotId;
  readonly observations: readonly ObservationId[];
  readonly parts: readonly Part[];
}

/**
 * Reads what is stamped on the plate against its maker's number patterns, the years of its trade names, the parts that have the
 * number, what superseded them, and the part the plate is fixed to (O5). What is only told is not read. A pattern nobody has given
 * is not known, and never held against a plate.
 */
export const readPlate = (atlas: CompiledAtlas, sheet: Sheet, holders: readonly PlateHolder[] = []): PlateReading => {
  const slot = atlas.data.slots.find(({ group }) => group === 'plate')?.id;
  const seen = sheet.observations.filter((observation) => observation.slot === slot && observation.sure.kind !== 'told');
  const names = seen.filter((observation) => saysOf(atlas, observation) === 'trade name');
  const named = [...new Set(names.flatMap((observation) => makersNamed(atlas, textOf(observation))))];
  const stamped = seen.flatMap((observation) => stampedOf(atlas, observation, named));
  if (slot === undefined || stamped.length === 0) return { stamped, disagreements: [] };
  const numbers = stamped.filter(({ says }) => says === 'part number' || says === 'serial number');
  return {
    stamped,
    disagreements: [
      ...numbers.flatMap((one) => againstPatterns(atlas, one, stamped, named)),
      ...againstTradeNames(atlas, stamped),
      ...betweenYears(stamped),
      ...stamped.filter(({ says }) => says === 'part number').flatMap((one) => ofNumber(atlas, one, stamped, slot, sheet, holders)),
      ...notListed(atlas, sheet),
      ...againstClaim(atlas, stamped, sheet),
    ],
  };
};

const saysOf = (atlas: CompiledAtlas, { feature }: Observation): Feature['says'] => atlas.features.get(feature)?.says;
const textOf = ({ value }: Observation): string => (value.kind === 'mark' ? (value.text ?? '') : '');

const makersNamed = (atlas: CompiledAtlas, text: string): readonly Maker[] => atlas.data.makers.filter((maker) => isNamed(maker, text));

const stampedOf = (atlas: CompiledAtlas, observation: Observation, named: readonly Maker[]): Stamped[] => {
  const says = saysOf(atlas, observation);
  const { id, feature, value } = observation;
  if (says === undefined) return [];
  if (value.kind === 'count') {
    return says === 'year of make'
      ? [{ observation: id, feature, says, text: String(value.from), makers: [], made: { from: value.from, to: value.to }, parts: [] }]
      : [];
  }
  const text = textOf(observation);
  if (text === '' || says === 'year of make') return [];
  if (says === 'trade name') {
    const makers = makersNamed(atlas, text);
    const used = makers.flatMap(({ tradeNames }) => tradeNames.filter(({ name }) => sameMark(name, text)));
    return [
      {
        observation: id,
        feature,
        says,
        text,
        makers: makers.map((maker) => maker.id),
        made: used.length === 0 ? null : spanOf(used),
        parts: [],
      },
    ];
  }
  const reads = readsBy(named.length > 0 ? named : atlas.data.makers, says, text);
  const parts = says === 'part number' ? partsNumbered(atlas, text) : [];
  const eras = reads.map(({ read }) => read.made);
  return [
    {
      observation: id,
      feature,
      says,
      text,
      makers: [...new Set([...reads.map(({ maker }) => maker.id), ...parts.flatMap(({ maker }) => maker ?? [])])],
      made: says === 'part number' || eras.length === 0 ? null : known(spanOf(eras)),
      parts: parts.map((part) => part.id),
    },
  ];
};

/** A time open at both ends tells nothing. */
const known = (era: Era): Era | null => (era.from === null && era.to === null ? null : era);

interface ReadBy {
  readonly maker: Maker;
  readonly read: NumberRead;
}

const readsBy = (makers: readonly Maker[], says: 'part number' | 'serial number', text: string): readonly ReadBy[] => {
  const reads = makers.flatMap((maker) =>
    (maker.numbering ?? [])
      .filter((pattern) => pattern.says === says)
      .flatMap((pattern) => readNumber(pattern, text).map((read) => ({ maker, read }))),
  );
  // Where one reading has its check digit right, those that have it wrong are not what was meant.
  const right = reads.filter(({ read: { check } }) => check === null || check.stamped === check.wanted);
  return right.length > 0 ? right : reads;
};

/** The number against how the maker of the trade name makes them, and its check digit. */
const againstPatterns = (atlas: CompiledAtlas, one: Stamped, stamped: readonly Stamped[], named: readonly Maker[]): PlateDisagreement[] => {
  const says = one.says as 'part number' | 'serial number';
  const reads = readsBy(named.length > 0 ? named : atlas.data.makers, says, one.text);
  const [wrong] = reads.filter(({ read: { check } }) => check !== null && check.stamped !== check.wanted);
  if (wrong?.read.check) return [{ kind: 'check digit', observations: [one.observation], maker: wrong.maker.id, ...wrong.read.check }];
  const [maker] = named;
  if (reads.length > 0 || maker === undefined) return [];
  const own = new Set<MakerId>(named.map(({ id }) => id));
  const knownParts = one.parts.flatMap((id) => atlas.parts.get(id)?.maker ?? []);
  const patternsKnown = named.every(({ numbering }) => numbering?.some((pattern) => pattern.says === says) === true);
  if (!patternsKnown || knownParts.some((id) => own.has(id))) return [];
  const like =
    knownParts[0] ??
    readsBy(atlas.data.makers, says, one.text).filter(({ read: { check } }) => check === null || check.stamped === check.wanted)[0]?.maker
      .id;
  const name = stamped.find((each) => each.says === 'trade name');
  return [
    {
      kind: 'not this maker’s number',
      observations: [...(name === undefined ? [] : [name.observation]), one.observation],
      says,
      maker: maker.id,
      like: like ?? null,
    },
  ];
};

const dated = (stamped: readonly Stamped[]): readonly (Stamped & { readonly made: Era })[] =>
  stamped.filter(
    (one): one is Stamped & { readonly made: Era } => one.made !== null && (one.says === 'serial number' || one.says === 'year of make'),
  );

const againstTradeNames = (atlas: CompiledAtlas, stamped: readonly Stamped[]): PlateDisagreement[] =>
  stamped.flatMap((name) => {
    if (name.says !== 'trade name' || name.made === null) return [];
    const used = name.made;
    return dated(stamped).flatMap(({ observation, made }): PlateDisagreement[] =>
      meet(used, made)
        ? []
        : [{ kind: 'trade name not in use', observations: [name.observation, observation], name: spelt(atlas, name), used, made }],
    );
  });

/** The trade name as its maker writes it. */
const spelt = (atlas: CompiledAtlas, { text }: Stamped): string =>
  atlas.data.makers.flatMap(namesOfMaker).find((name) => sameMark(name, text)) ?? text;

const betweenYears = (stamped: readonly Stamped[]): PlateDisagreement[] => {
  const dates = dated(stamped);
  return dates
    .filter(({ says }) => says === 'serial number')
    .flatMap((serial) =>
      dates
        .filter(({ says }) => says === 'year of make')
        .flatMap((year): PlateDisagreement[] =>
          meet(serial.made, year.made)
            ? []
            : [{ kind: 'years disagree', observations: [serial.observation, year.observation], serial: serial.made, year: year.made }],
        ),
    );
};

/** What the number is of, against everything else: another slot, a later number, another time, the part the plate is fixed to, the claim. */
const ofNumber = (
  atlas: CompiledAtlas,
  one: Stamped,
  stamped: readonly Stamped[],
  slot: SlotId,
  sheet: Sheet,
  holders: readonly PlateHolder[],
): PlateDisagreement[] => {
  const parts = one.parts.flatMap((id) => atlas.parts.get(id) ?? []);
  const elsewhere = otherSlot(atlas, one, parts, slot, stamped);
  const models = [...new Set(parts.flatMap((part) => modelsOf(atlas, part)))];
  const ids = models.map(({ id }) => id);
  const claimed = modelsClaimed(atlas, sheet);
  const [first] = models;
  const found: PlateDisagreement[] = [...elsewhere, ...superseded(atlas, one, parts)];
  if (first === undefined) return found;
  for (const { slot: held, observations, parts: possible } of holders) {
    if (observations.length === 0 || possible.length === 0 || elsewhere.length > 0) continue;
    if (possible.some((part) => modelsOf(atlas, part).some((model) => models.includes(model)))) continue;
    const against = tellingOf(atlas, sheet, observations, models, held);
    found.push({ kind: 'not this bearing housing', observations: [one.observation, ...against], models: ids, slot: held });
  }
  // A name several makers list is contradicted only by a number of none of theirs.
  if (!claimed.some((model) => models.includes(model)))
    for (const { id } of claimed) found.push({ kind: 'not the claimed model', observations: [one.observation], models: ids, claimed: id });
  const built = builtOf(atlas, models);
  for (const { observation, made } of dated(stamped)) {
    if (built === null || meet(built, made)) continue;
    found.push({
      kind: 'out of its time',
      observations: [one.observation, observation],
      of: 'number',
      models: ids,
      family: first.family,
      built,
      made,
    });
  }
  return found;
};

/** What was seen of the holder that by itself none of the models' parts would show; where nothing does alone, all of it. */
const tellingOf = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  observations: readonly ObservationId[],
  models: readonly Model[],
  held: SlotId,
): readonly ObservationId[] => {
  const own = atlas.data.parts.filter((part) => part.slot === held && modelsOf(atlas, part).some((model) => models.includes(model)));
  const alone = sheet.observations.filter((observation) => {
    const feature = atlas.features.get(observation.feature);
    if (feature === undefined || !observations.includes(observation.id)) return false;
    return own.every((part) => agrees(feature, part.facts[feature.id] ?? { kind: 'not known' }, observation) === 'fails');
  });
  return alone.length > 0 ? alone.map(({ id }) => id) : observations;
};

/** That the number is nobody's, though it could be one (O5). */
const notListed = (atlas: CompiledAtlas, sheet: Sheet): PlateDisagreement[] => {
  const plate = unlistedNumber(atlas, sheet);
  if (plate === null) return [];
  const { observations, makers, models, patterned } = plate;
  return [{ kind: 'number not listed', observations, makers, models: [...models], patterned }];
};

const otherSlot = (
  atlas: CompiledAtlas,
  one: Stamped,
  parts: readonly Part[],
  slot: SlotId,
  stamped: readonly Stamped[],
): PlateDisagreement[] => {
  const named = stamped.filter(({ says }) => says === 'trade name').flatMap(({ makers }) => makers);
  const makers = named.length > 0 ? atlas.data.makers.filter(({ id }) => named.includes(id)) : atlas.data.makers;
  const slots =
    parts.length > 0 ? parts.map((part) => part.slot) : readsBy(makers, 'part number', one.text).flatMap(({ read }) => read.slot ?? []);
  const [first] = slots;
  if (first === undefined || slots.includes(slot)) return [];
  return [{ kind: 'number of another slot', observations: [one.observation], slot: first, parts: parts.map(({ id }) => id) }];
};

/** Followed to the last part of the chain. A number that is also of a part nothing has superseded is not superseded. */
const superseded = (atlas: CompiledAtlas, one: Stamped, parts: readonly Part[]): PlateDisagreement[] => {
  const [part] = parts;
  if (part === undefined || parts.some(({ id }) => successorsOf(atlas, id).length === 0)) return [];
  const last = lastSuccessorOf(atlas, part);
  return [{ kind: 'superseded', observations: [one.observation], part: part.id, by: last.id, number: last.numbers[0] ?? null }];
};

const againstClaim = (atlas: CompiledAtlas, stamped: readonly Stamped[], sheet: Sheet): PlateDisagreement[] => {
  const claimed = modelsClaimed(atlas, sheet);
  const [first] = claimed;
  if (first === undefined) return [];
  // What the number is of has been held against the dates, and against the claim, already.
  const numbered = stamped.some(({ parts }) => parts.some((id) => modelsOf(atlas, atlas.parts.get(id) as Part).length > 0));
  const built = builtOf(atlas, claimed);
  if (numbered || built === null) return [];
  return dated(stamped).flatMap(({ observation, made }): PlateDisagreement[] =>
    meet(built, made)
      ? []
      : [
          {
            kind: 'out of its time',
            observations: [observation],
            of: 'claim',
            models: claimed.map(({ id }) => id),
            family: first.family,
            built,
            made,
          },
        ],
  );
};

/** When any of the models was built; a model without years was built in its family's, where those are known. */
const builtOf = (atlas: CompiledAtlas, models: readonly Model[]): Era | null =>
  known(
    spanOf(
      models.map(({ from, to, family }) =>
        from === null && to === null ? (atlas.families.get(family) ?? { from: null, to: null }) : { from, to },
      ),
    ),
  );
