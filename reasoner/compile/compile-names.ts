import type { Rung } from '../answer/verdict.ts';
import type { Family, Model } from '../atlas/atlas.ts';
import type { FamilyId, ModelId } from '../ids.ts';
import type { CompiledAtlas, FamilyParts, Ground, HousingList, HousingOrigins } from './compiled.ts';
import { allPartsNameId, familyPartsNameId, serviceNameId } from './name-ids.ts';
import { type Demand, demandsOfAny, type NameRule, type NameWords, nameRule, union } from './name-rule.ts';
import { familyName, fullName, fullNames, housingSlots, makerOf } from './name-texts.ts';
import { type Seats, seatsOf } from './seats.ts';

/** Every name of the ladder (N4) but those formed for a unit: hybrids, and parts of a family of no one model. The list of parts comes last. */
export const compileNames = (atlas: Ground): Pick<CompiledAtlas, 'names' | 'housings' | 'familyParts'> => {
  const seats = seatsOf(atlas);
  const ofModels = new Map(atlas.data.models.map((model) => [model.id, namesOfModel(atlas, model, seatsAt(seats, model))]));
  const cores = coresOf(atlas, seats);
  const familyOf = familiesOf(atlas, cores);
  return {
    names: [
      ...[...ofModels.values()].flat(),
      ...cores.map(({ rule }) => rule),
      ...atlas.data.families.flatMap((family) => namesOfFamily(atlas, family, ofModels, familyOf(family))),
      nameRule(
        { id: 'parts', rung: 'parts', maker: null, text: 'no name: a list of parts', models: [], family: null },
        atlas.slots.map(() => null),
      ),
    ],
    housings: housingOrigins(atlas, seats),
    familyParts: atlas.data.families.flatMap((family) => partsOfFamily(atlas, family, ofModels, familyOf(family))),
  };
};

const seatsAt = (seats: ReadonlyMap<ModelId, readonly (Seats | null)[]>, model: Model): readonly (Seats | null)[] =>
  seats.get(model.id) as readonly (Seats | null)[];

/** The rungs of one model: three and, under a plate rule, all its parts whatever the plate; of a model with no maker its core alone. */
const namesOfModel = (atlas: Ground, model: Model, of: readonly (Seats | null)[]): NameRule[] => {
  const maker = makerOf(atlas, model);
  const words = { maker, models: [model.id], family: model.family };
  if (maker === null) {
    const pattern = model.patternOf === null ? null : atlas.models.get(model.patternOf);
    const text = `pattern part core (pattern of ${pattern ? fullName(atlas, pattern) : 'no known model'}, no maker’s name)`;
    return [ruleOf({ ...words, id: `pattern:${model.id}`, rung: 'pattern core', text }, of, inCoreOf(atlas, anyWhereNaming))];
  }
  const text = fullName(atlas, model);
  const plated = of.some((seat, slot) => seat?.naming && groupAt(atlas, slot) === 'plate');
  return [
    ruleOf({ ...words, id: `model:${model.id}`, rung: 'model', text }, of, (seat) => (seat.naming ? seat.names : seat.any)),
    ruleOf(
      { ...words, id: `options:${model.id}`, rung: 'model with options', text: `${text}, catalogued options aside` },
      of,
      (seat) => seat.any,
    ),
    ruleOf(
      { ...words, id: serviceNameId(model.id), rung: 'model with service parts replaced', text: `${text}, service parts aside` },
      of,
      anyWhereNaming,
    ),
    ...(plated
      ? [
          ruleOf(
            { ...words, id: allPartsNameId(model.id), rung: 'all parts', maker: null, text: `all parts of ${text}` },
            of,
            (seat, slot) => (groupAt(atlas, slot) === 'plate' ? null : anyWhereNaming(seat, slot)),
          ),
        ]
      : []),
  ];
};

/** Which parts of a seat a name demands; null where it demands none. */
type SeatDemand = (seat: Seats, slot: number) => Demand;

const anyWhereNaming: SeatDemand = (seat) => (seat.naming || isSilentSeat(seat) ? seat.any : null);
const isSilentSeat = ({ open, any }: Seats): boolean => open && any.size === 0;
const groupAt = (atlas: Ground, slot: number) => atlas.slots[slot]?.data.group;
const inCoreOf =
  (atlas: Ground, demand: SeatDemand): SeatDemand =>
  (seat, slot) =>
    groupAt(atlas, slot) === 'core' ? demand(seat, slot) : null;

const ruleOf = (words: NameWords, of: readonly (Seats | null)[], demand: SeatDemand): NameRule => {
  const demands = of.map((seat, slot) => (seat === null ? null : demand(seat, slot)));
  const open = new Map<number, ReadonlySet<number>>();
  of.forEach((seat, slot) => {
    const allowed = demands[slot] ?? null;
    // Listed there, but in a role this name does not allow: that it does not belong is known.
    if (seat?.open && allowed !== null) open.set(slot, new Set([...seat.any].filter((part) => !allowed.has(part))));
  });
  return nameRule(words, demands, open);
};

interface Core {
  readonly models: readonly Model[];
  readonly rule: NameRule;
}

/** What belongs to a family, in the order of the atlas. */
interface OfFamily {
  readonly models: Model[];
  /** Nobody's models made after one of its own. */
  readonly patterns: Model[];
  readonly cores: Core[];
}

/** Worked out in one way through the models: there may be thousands of families. */
const familiesOf = (atlas: Ground, cores: readonly Core[]): ((family: Family) => OfFamily) => {
  const known = new Map<FamilyId, OfFamily>(atlas.data.families.map(({ id }) => [id, { models: [], patterns: [], cores: [] }]));
  for (const model of atlas.data.models) {
    known.get(model.family)?.models.push(model);
    const after = model.patternOf === null || makerOf(atlas, model) !== null ? undefined : atlas.models.get(model.patternOf)?.family;
    if (after !== undefined) known.get(after)?.patterns.push(model);
  }
  for (const core of cores) for (const family of new Set(core.models.map((model) => model.family))) known.get(family)?.cores.push(core);
  return ({ id }) => known.get(id) as OfFamily;
};

/** Names of a family, its models not told apart; of a maker's family also of the pattern cores made after it (N4). */
const namesOfFamily = (
  atlas: Ground,
  family: Family,
  ofModels: ReadonlyMap<ModelId, readonly NameRule[]>,
  { models, patterns, cores }: OfFamily,
): NameRule[] => {
  if (family.maker === null) return [];
  if (models.length === 0) return [];
  const text = familyName(atlas, family);
  const words = { rung: 'family', maker: family.maker, models: [], family: family.id } as const;
  const byRung = (model: Model, rung: Rung): readonly NameRule[] => (ofModels.get(model.id) ?? []).filter(({ name }) => name.rung === rung);
  return [
    anyOf(
      { ...words, id: `family:${family.id}`, text: `${text} family, model not settled` },
      models.flatMap((model) => byRung(model, 'model with service parts replaced')),
    ),
    anyOf(
      { ...words, id: `family-core:${family.id}`, text: `core of the ${text} family, model not settled` },
      cores.map((core) => core.rule),
    ),
    ...(patterns.length === 0
      ? []
      : [
          anyOf(
            {
              id: `pattern-family:${family.id}`,
              rung: 'pattern family',
              maker: null,
              text: `pattern part core after the ${text} family, size not settled`,
              models: [],
              family: family.id,
            },
            patterns.flatMap((model) => byRung(model, 'pattern core')),
          ),
        ]),
  ];
};

const partsOfFamily = (
  atlas: Ground,
  family: Family,
  ofModels: ReadonlyMap<ModelId, readonly NameRule[]>,
  { models }: OfFamily,
): FamilyParts[] => {
  const noneOf = models.flatMap((model): NameRule[] => {
    if (family.maker === null) return [];
    const own = ofModels.get(model.id) ?? [];
    const plateless =
      own.find(({ name }) => name.rung === 'all parts') ?? own.find(({ name }) => name.rung === 'model with service parts replaced');
    return plateless === undefined ? [] : [plateless];
  });
  if (noneOf.length === 0) return [];
  const { demands, open } = demandsOfAny(noneOf);
  const text = `parts of the ${familyName(atlas, family)} family, of no one model`;
  const words: NameWords = { id: familyPartsNameId(family.id), rung: 'family parts', maker: null, text, models: [], family: family.id };
  return [{ rule: nameRule(words, demands, open), noneOf }];
};

const anyOf = (words: NameWords, rules: readonly NameRule[]): NameRule => {
  const { demands, open } = demandsOfAny(rules);
  return { ...nameRule(words, demands, open), anyOf: rules };
};

/** Cores of named models; models whose cores demand the same, from lists equally open, are spoken of together. */
const coresOf = (atlas: Ground, seats: ReadonlyMap<ModelId, readonly (Seats | null)[]>): Core[] => {
  const cores = new Map<string, Model[]>();
  const demand = inCoreOf(atlas, anyWhereNaming);
  for (const model of atlas.data.models) {
    const maker = makerOf(atlas, model);
    if (maker === null) continue;
    const sets = seatsAt(seats, model).map((seat, slot) => {
      const parts = seat === null ? null : demand(seat, slot);
      return parts === null ? '-' : `${seat?.open ? '…' : ''}${[...parts].sort((a, b) => a - b).join()}`;
    });
    const key = `${maker}|${sets.join('|')}`;
    const known = cores.get(key);
    if (known) known.push(model);
    else cores.set(key, [model]);
  }
  const housings = housingSlots(atlas).map(({ data: slot }) => ({ slot: slot.id, origin: { kind: 'unidentified' } as const }));
  return [...cores.values()].map((models) => {
    const [first] = models as [Model, ...Model[]];
    const text = `core of ${fullNames(atlas, models)} with unidentified housings`;
    const words = { id: `core:${first.id}`, rung: 'core', maker: makerOf(atlas, first), text, family: first.family } as const;
    const rule = ruleOf({ ...words, models: models.map(({ id }) => id) }, seatsAt(seats, first), demand);
    return { models, rule: { ...rule, name: { ...rule.name, housings } } };
  });
};

/** The housings listed by each model, and by each maker's family, by slot number (null: none listed, or no housing slot). */
const housingOrigins = (atlas: Ground, seats: ReadonlyMap<ModelId, readonly (Seats | null)[]>): HousingOrigins => {
  const ofModel = new Map<ModelId, (HousingList | null)[]>();
  const ofFamily = new Map<FamilyId, (HousingList | null)[]>();
  for (const model of atlas.data.models) {
    if (makerOf(atlas, model) === null) continue;
    const own = seatsAt(seats, model).map((seat, slot): HousingList | null =>
      seat === null || groupAt(atlas, slot) !== 'housing' ? null : { parts: seat.any, open: seat.open },
    );
    ofModel.set(model.id, own);
    const family = ofFamily.get(model.family);
    ofFamily.set(model.family, family ? family.map((list, slot) => joined(list, own[slot] ?? null)) : own);
  }
  return { ofFamily, ofModel };
};

const joined = (a: HousingList | null, b: HousingList | null): HousingList | null =>
  a === null || b === null ? (a ?? b) : { parts: union([a.parts, b.parts]), open: a.open || b.open };
