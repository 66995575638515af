import type {
  Assumptions,
  Atlas,
  Fact,
  Feature,
  FeatureId,
  ModelId,
  Observation,
  ObservationId,
  Part,
  PartId,
  Sheet,
  SlotId,
} from '../../reasoner/index.ts';
import { rowsOf } from './machined.ts';
import { densityAt, integral, readsBelow } from './quadrature.ts';
import { disagrees, readQuestion } from './reading.ts';

/**
 * The odds (Q1) by brute force: every model a unit can have been built as and the one the atlas does not list, every part in every slot and the
 * unlisted one, every choice of entries that may be slips. Written from reasoner/SPEC.md “Odds”, sharing no code with reasoner/odds; names and joints come from reading.ts.
 */
export interface Counted {
  readonly worlds: number;
  /** Entries that tell of work alone. */
  readonly ofWork: number;
  /** `null`: as a model the atlas does not list. */
  readonly built: ReadonlyMap<ModelId | null, number>;
  /** By the names met on the best rank, as `reading.ts` calls them, sorted and joined. */
  readonly targets: ReadonlyMap<string, number>;
  readonly parts: ReadonlyMap<SlotId, ReadonlyMap<PartId | 'unlisted', number>>;
  /** Entropy of the targets. */
  readonly bits: number;
  /** Expected drop by every feature that can still be asked about, and by every one that can be read again. */
  readonly drops: ReadonlyMap<FeatureId, number>;
  readonly again: ReadonlyMap<FeatureId, number>;
  /** That every entry is right; and by entry, that it is a slip. */
  readonly right: number;
  readonly slips: ReadonlyMap<ObservationId, number>;
}

/** How many choices there are to go through. */
export const worldsOf = (atlas: Atlas): number =>
  (atlas.models.length + 1) *
  atlas.slots.reduce((product, { id }) => product * (atlas.parts.filter(({ slot }) => slot === id).length + 1), 1);

type Held = Part | 'unlisted';
type Model = Atlas['models'][number] | null;

/** @returns null where the observations can never be made */
export const everyWorld = (atlas: Atlas, sheet: Sheet, assumptions: Assumptions): Counted | null => {
  const { slip } = assumptions;
  const shares = sharesBefore(atlas, sheet, assumptions);
  const asked = new Map(atlas.features.map((feature) => [feature.id, ofFeature(atlas, feature)] as const));
  const entries = entriesThatCount(atlas, sheet, asked);
  const names = namesMet(atlas, sheet);
  const likelihoods = new Map<string, Likely>();
  const likely = (slot: SlotId, held: Held): Likely => {
    const key = `${slot} ${held === 'unlisted' ? '' : held.id}`;
    const known = likelihoods.get(key) ?? likelyIn(entries, asked, slot, held, slip);
    likelihoods.set(key, known);
    return known;
  };

  const targets = new Map<string, number>();
  const built = new Map<ModelId | null, number>();
  /** slot, part, target */
  const joint = atlas.slots.map(() => new Map<Held, Map<string, number>>());
  const slips = new Map(entries.map(({ id }) => [id, 0]));
  let [all, right, worlds] = [0, 0, 0];
  const holds: Held[] = [];
  const visit = (model: Model, at: number, chance: number, allRight: number): void => {
    if (chance === 0) return;
    const slot = atlas.slots[at];
    if (slot === undefined) {
      worlds += 1;
      const target = names(holds);
      all += chance;
      right += allRight;
      built.set(model?.id ?? null, (built.get(model?.id ?? null) ?? 0) + chance);
      targets.set(target, (targets.get(target) ?? 0) + chance);
      holds.forEach((held, i) => {
        const own = joint[i]?.get(held) ?? new Map<string, number>();
        joint[i]?.set(held, own);
        own.set(target, (own.get(target) ?? 0) + chance);
        for (const [entry, share] of likely(atlas.slots[i]?.id as SlotId, held).slips)
          slips.set(entry, (slips.get(entry) as number) + chance * share);
      });
      return;
    }
    for (const [held, share] of shares(model, slot.id)) {
      holds[at] = held;
      const of = likely(slot.id, held);
      visit(model, at + 1, chance * share * of.chance, allRight * share * of.right);
    }
  };
  const listed = atlas.models.length;
  for (const model of atlas.models) visit(model, 0, (1 - assumptions.stranger) / listed, (1 - assumptions.stranger) / listed);
  visit(null, 0, listed === 0 ? 1 : assumptions.stranger, listed === 0 ? 1 : assumptions.stranger);
  if (all === 0) return null;

  const share = <K>(map: ReadonlyMap<K, number>): Map<K, number> => new Map([...map].map(([key, chance]) => [key, chance / all]));
  const bits = entropy([...targets.values()].map((chance) => chance / all));
  const givenUp = new Set((sheet.unseen ?? []).map(({ feature }) => feature));
  const seen = new Set(sheet.observations.filter(({ sure }) => sure.kind !== 'told').map(({ feature }) => feature));
  const dropOf = (id: FeatureId, slot: SlotId, readings: number, reads: (held: Held, reading: number) => number): [FeatureId, number] => {
    const own = joint[atlas.slots.findIndex((each) => each.id === slot)] as ReadonlyMap<Held, ReadonlyMap<string, number>>;
    let left = 0;
    for (let reading = 0; reading < readings; reading += 1) {
      const after = new Map<string, number>();
      for (const [held, of] of own) {
        const chance = reads(held, reading);
        for (const [target, both] of of) after.set(target, (after.get(target) ?? 0) + (both * chance) / all);
      }
      const sum = [...after.values()].reduce((total, chance) => total + chance, 0);
      if (sum > 0) left += sum * entropy([...after.values()].map((chance) => chance / sum));
    }
    return [id, bits - left];
  };
  const open = atlas.features.filter(({ id, slot }) => !seen.has(id) && !givenUp.has(id) && !sheet.absent.includes(slot));
  const entered = atlas.features.filter(({ id }) => !givenUp.has(id) && entries.some(({ feature }) => feature === id));
  return {
    worlds,
    ofWork: sheet.observations.filter((each) => each.sure.kind !== 'told' && tellsOfWorkAlone(atlas, sheet, each)).length,
    built: share(built),
    targets: share(targets),
    parts: new Map(
      atlas.slots.map((slot, i) => [
        slot.id,
        new Map(
          [...(joint[i] as ReadonlyMap<Held, ReadonlyMap<string, number>>)].map(([held, of]) => [
            held === 'unlisted' ? held : held.id,
            [...of.values()].reduce((sum, chance) => sum + chance, 0) / all,
          ]),
        ),
      ]),
    ),
    bits,
    drops: new Map(
      open.map(({ id, slot }) => {
        const { readings, plain, blind } = asked.get(id) as OfFeature;
        return dropOf(id, slot, readings, (held, reading) => {
          const fact = factOf(held, id);
          return fact === null ? blind(reading) : (1 - slip) * plain(fact, reading) + slip * blind(reading);
        });
      }),
    ),
    again: new Map(
      entered.map(({ id, slot }) => {
        const { readings, blind, patterns } = asked.get(id) as OfFeature;
        const own = entries.filter(({ feature }) => feature === id);
        return dropOf(id, slot, readings, (held, reading) => {
          // Of every choice of slips among the entries, how likely it is beside the others, and what a true look would read then.
          const ways = slipPatterns(own, slip).map(({ wrong, chance }) => ({ chance, of: patterns(factOf(held, id), own, wrong) }));
          const sum = ways.reduce((total, way) => total + way.chance * way.of.chance, 0);
          const truly = ways.reduce((total, way) => total + way.chance * way.of.chance * way.of.again(reading), 0);
          return sum === 0 ? 0 : ((1 - slip) * truly) / sum + slip * blind(reading);
        });
      }),
    ),
    right: right / all,
    slips: share(slips),
  };
};

/** The entries that are weighed: not told, not of an empty slot, of a value the feature can have; of one size the eight best measured. */
const entriesThatCount = (atlas: Atlas, sheet: Sheet, asked: ReadonlyMap<FeatureId, OfFeature>): Observation[] =>
  atlas.features.flatMap(({ id, slot, kind }) => {
    if (sheet.absent.includes(slot)) return [];
    const own = sheet.observations.filter(
      (each) => each.feature === id && each.sure.kind !== 'told' && !tellsOfWorkAlone(atlas, sheet, each) && !tellsHowItIsHeld(atlas, each),
    );
    if (kind !== 'measure') return own.filter((each) => (asked.get(id) as OfFeature).canBe(each));
    return own.length <= 8 ? own : [...own].sort((a, b) => uOf(a) - uOf(b)).slice(0, 8);
  });

/** Row by row (`machined.ts`): some way of finding a part agrees with every entry of the slot, and none of the parts of these ways agrees with this entry as it is made. */
const tellsOfWorkAlone = (atlas: Atlas, sheet: Sheet, entry: Observation): boolean => {
  const beside = sheet.observations.filter(({ slot, sure }) => slot === entry.slot && sure.kind !== 'told');
  const differs = (part: Part, one: Observation): boolean =>
    disagrees(one, atlas.features.find(({ id }) => id === one.feature) as Feature, part.facts[one.feature]);
  const agreeing = atlas.parts.filter(
    (part) => part.slot === entry.slot && rowsOf(atlas, part).some((row) => beside.every((one) => !differs(row, one))),
  );
  return agreeing.length > 0 && agreeing.every((part) => differs(part, entry));
};

/** Of a plate, what no maker is known to have fixed one by, where some are known to have fixed theirs otherwise. */
const tellsHowItIsHeld = (atlas: Atlas, { slot, feature, value }: Observation): boolean => {
  const plate = atlas.slots.find(({ id }) => id === slot)?.group === 'plate';
  if (!plate || value.kind !== 'choice' || atlas.features.some(({ id, port }) => id === feature && port !== undefined)) return false;
  const options = atlas.parts.flatMap((part) => {
    const fact = part.slot === slot ? part.facts[feature] : undefined;
    return fact?.kind === 'choice' ? fact.anyOf : [];
  });
  return options.length > 0 && !options.includes(value.option);
};

const uOf = ({ sure }: Observation): number => (sure.kind === 'measured' ? sure.u : 0);

interface Likely {
  /** Of the slot's entries, of the part held. */
  readonly chance: number;
  /** The same with all of them true. */
  readonly right: number;
  /** By entry: how likely it is a slip, all entries of the slot known. */
  readonly slips: readonly (readonly [ObservationId, number])[];
}

const likelyIn = (
  entries: readonly Observation[],
  asked: ReadonlyMap<FeatureId, OfFeature>,
  slot: SlotId,
  held: Held,
  slip: number,
): Likely => {
  let [chance, right] = [1, 1];
  const slips: [ObservationId, number][] = [];
  for (const feature of new Set(entries.filter((each) => each.slot === slot).map((each) => each.feature))) {
    const own = entries.filter((each) => each.feature === feature);
    const fact = factOf(held, feature);
    const ways = slipPatterns(own, slip).map((way) => ({
      ...way,
      both: way.chance * (asked.get(feature) as OfFeature).patterns(fact, own, way.wrong).chance,
    }));
    const sum = ways.reduce((total, { both }) => total + both, 0);
    chance *= sum;
    right *= ways.find(({ wrong }) => wrong.size === 0)?.both ?? 0;
    for (const { id } of own)
      slips.push([id, sum === 0 ? 0 : ways.reduce((total, { wrong, both }) => (wrong.has(id) ? total + both : total), 0) / sum]);
  }
  return { chance, right, slips };
};

/** Every choice of entries that are slips, with its chance. */
const slipPatterns = (entries: readonly Observation[], slip: number): { wrong: ReadonlySet<ObservationId>; chance: number }[] =>
  entries.reduce<{ wrong: Set<ObservationId>; chance: number }[]>(
    (ways, { id }) =>
      ways.flatMap(({ wrong, chance }) => [
        { wrong, chance: chance * (1 - slip) },
        { wrong: new Set([...wrong, id]), chance: chance * slip },
      ]),
    [{ wrong: new Set(), chance: 1 }],
  );

const entropy = (chances: readonly number[]): number =>
  chances.reduce((sum, chance) => (chance > 0 ? sum - (chance * Math.log(chance)) / Math.LN2 : sum), 0);

const factOf = (held: Held, feature: FeatureId): Fact | null => {
  if (held === 'unlisted') return null;
  const fact = held.facts[feature];
  return fact === undefined || fact.kind === 'not known' ? null : fact;
};

/** For a model, or null for one the atlas does not list, and a slot: what the slot can hold, each with its share. Nothing is said twice but added up. */
const sharesBefore = (atlas: Atlas, sheet: Sheet, { swapped, unlisted, misfit }: Assumptions) => {
  const byId = new Map(atlas.parts.map((part) => [part.id, part]));
  const partsIn = (slot: SlotId): Part[] => atlas.parts.filter((part) => part.slot === slot);
  const listedIn = (model: NonNullable<Model>, slot: SlotId): Part[] => {
    const own = new Set(model.allowed.filter((entry) => entry.slot === slot).map(({ part }) => part));
    return partsIn(slot).filter((part) => {
      for (let at: Part | undefined = part; at !== undefined; at = at.supersedes === undefined ? undefined : byId.get(at.supersedes))
        if (own.has(at.id)) return true;
      return false;
    });
  };
  const openEnded = (model: NonNullable<Model>, slot: SlotId): boolean =>
    atlas.slots.find(({ id }) => id === slot)?.group !== 'plate' &&
    (listedIn(model, slot).length === 0 || (model.openEnded ?? []).includes(slot));
  const joints = readQuestion({ ...atlas, operations: [] }, sheet, { names: () => false }).joints.map(({ a, b, fails }) => ({
    a,
    b,
    fails: new Set(fails.map(([p, q]) => `${p} ${q}`)),
  }));
  const fits = (model: NonNullable<Model>, slot: SlotId, part: Part): boolean =>
    joints.every(({ a, b, fails }) => {
      if (a !== slot && b !== slot) return true;
      const other = a === slot ? b : a;
      const beside = openEnded(model, other) ? [] : listedIn(model, other);
      return beside.length === 0 || beside.some(({ id }) => !fails.has(a === slot ? `${part.id} ${id}` : `${id} ${part.id}`));
    });
  const made = (model: Model, slot: SlotId): Map<Held, number> => {
    const shares = new Map<Held, number>();
    const put = (among: readonly Held[], share: number): void => {
      for (const held of among) shares.set(held, (shares.get(held) ?? 0) + share / among.length);
    };
    const every = partsIn(slot);
    if (model === null) {
      put(every, 0.5);
      put(['unlisted'], every.length === 0 ? 1 : 0.5);
      return shares;
    }
    const belongs = openEnded(model, slot) ? every : listedIn(model, slot);
    put(belongs, 1 - swapped);
    const since = belongs.length === 0 ? 1 : swapped;
    const fitting = every.filter((part) => fits(model, slot, part));
    const others = every.filter((part) => !fitting.includes(part));
    put(['unlisted'], since * unlisted);
    put(others, since * (1 - unlisted) * misfit);
    put(fitting.length === 0 ? ['unlisted'] : fitting, since * (1 - unlisted) * (others.length === 0 ? 1 : 1 - misfit));
    return shares;
  };
  const kept = new Map<string, Map<Held, number>>();
  return (model: Model, slot: SlotId): ReadonlyMap<Held, number> => {
    const key = `${model?.id ?? ''} ${slot}`;
    const known = kept.get(key) ?? made(model, slot);
    kept.set(key, known);
    return known;
  };
};

/** Ladder without hybrids and without the two rungs that tell a model's options and service parts apart; best first. */
const rungOf = (meaning: string): number => {
  const [whole, core] = [meaning.endsWith(' whole'), meaning.endsWith(' core')];
  const rungs: readonly ((name: string) => boolean)[] = [
    (name) => name.startsWith('model with service parts replaced '),
    (name) => name.startsWith('all parts '),
    (name) => name.startsWith('core '),
    (name) => name.startsWith('family ') && whole,
    (name) => name.startsWith('family ') && core,
    (name) => name.startsWith('pattern core '),
    (name) => name.startsWith('pattern family '),
    (name) => name.startsWith('family parts '),
    (name) => name === 'parts',
  ];
  return rungs.findIndex((of) => of(meaning));
};

/** The names on the best rank that a full set of parts meets. An absent slot meets no demand. */
const namesMet = (atlas: Atlas, sheet: Sheet): ((holds: readonly Held[]) => string) => {
  const housings = atlas.slots.filter(({ group }) => group === 'housing').map(({ id }) => id);
  const anyHousings = housings.map((slot) => ` ${slot}:unidentified`).join('');
  const wanted = (meaning: string): boolean => rungOf(meaning) >= 0 && (!meaning.startsWith('core ') || meaning.endsWith(anyHousings));
  const { demands, absent, several } = readQuestion({ ...atlas, operations: [] }, sheet, { names: wanted });
  type Demand = (typeof demands)[number];
  const among = new Map(several.map(({ name, of }) => [name, of.map((number) => demands[number] as Demand)]));
  const ranked = demands
    .flatMap((demand) => demand.names.map((name) => ({ name, rank: rungOf(name), demand })))
    .sort((a, b) => a.rank - b.rank);
  const at = new Map(atlas.slots.map(({ id }, i) => [id, i]));
  return (holds) => {
    const holdsOne = (slot: SlotId, parts: ReadonlySet<PartId>): boolean => {
      const held = holds[at.get(slot) as number];
      return !absent.has(slot) && held !== undefined && held !== 'unlisted' && parts.has(held.id);
    };
    const met: string[] = [];
    let best = Number.POSITIVE_INFINITY;
    for (const { name, rank, demand } of ranked) {
      if (rank > best) break;
      if (!demand.mayStand || ![...demand.allowed].every(([slot, parts]) => holdsOne(slot, parts))) continue;
      // One of several: of some one of them the whole lists are met; what its open-ended lists ask for is not known.
      const of = among.get(name);
      if (of !== undefined && !of.some((one) => [...one.allowed].every(([slot, parts]) => one.open.has(slot) || holdsOne(slot, parts))))
        continue;
      best = rank;
      if (name !== 'parts') met.push(name);
    }
    return met.sort().join(' | ');
  };
};

/** What one feature can be read as, and how likely each reading is of a part with a fact (plain) and of any other (blind). */
interface OfFeature {
  readonly readings: number;
  readonly plain: (fact: Fact, reading: number) => number;
  readonly blind: (reading: number) => number;
  readonly canBe: (entry: Observation) => boolean;
  /**
   * Some entries being slips and the others true: how likely they are of a part with a fact (null: nothing known), and then each reading of another true look.
   */
  readonly patterns: (
    fact: Fact | null,
    entries: readonly Observation[],
    wrong: ReadonlySet<ObservationId>,
  ) => { readonly chance: number; readonly again: (reading: number) => number };
}

const ofFeature = (atlas: Atlas, feature: Feature): OfFeature => {
  const facts = atlas.parts
    .filter(({ slot }) => slot === feature.slot)
    .flatMap((part) => {
      const fact = factOf(part, feature.id);
      return fact === null ? [] : [fact];
    });
  switch (feature.kind) {
    case 'measure':
      return ofMeasure(feature, facts);
    case 'count': {
      // Every whole number some fact covers, and “another”.
      const numbers = new Set(facts.flatMap((fact) => (fact.kind === 'count' ? wholeNumbers(fact) : [])));
      const values: (number | 'another')[] = [...numbers, 'another'];
      return ofList<number | 'another'>(
        values,
        (fact) => (fact.kind === 'count' ? wholeNumbers(fact) : []),
        ({ value }) => {
          const named = value.kind === 'count' ? wholeNumbers(value).filter((number) => numbers.has(number)) : [];
          return named.length === 0 ? ['another'] : named;
        },
      );
    }
    case 'choice':
      return ofList(
        (feature.options ?? []).map(({ id }) => id),
        (fact) => (fact.kind === 'choice' ? fact.anyOf : []),
        ({ value }) => (value.kind === 'choice' ? [value.option] : []),
      );
    case 'presence':
      return ofList(
        [true, false],
        (fact) => (fact.kind === 'presence' ? [fact.present] : []),
        ({ value }) => (value.kind === 'presence' ? [value.present] : []),
      );
    case 'mark': {
      const texts = new Set(facts.flatMap((fact) => (fact.kind === 'mark' ? fact.anyOf.map(plainLetters) : [])));
      return ofList(
        ['no letters', ...[...texts].map((text) => `: ${text}`), 'others'],
        (fact) =>
          fact.kind === 'mark'
            ? [...(fact.blank ? ['no letters'] : []), ...new Set(fact.anyOf.map((text) => `: ${plainLetters(text)}`))]
            : [],
        ({ value }) => {
          if (value.kind !== 'mark') return [];
          if (value.text === null) return ['no letters'];
          return texts.has(plainLetters(value.text)) ? [`: ${plainLetters(value.text)}`] : ['others'];
        },
      );
    }
  }
};

const wholeNumbers = ({ from, to }: { readonly from: number; readonly to: number }): number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

const plainLetters = (text: string): string => text.toLowerCase().replace(/[^a-z0-9]/g, '');

const ofList = <T>(
  values: readonly T[],
  ofFact: (fact: Fact) => readonly T[],
  named: (observation: Observation) => readonly T[],
): OfFeature => {
  const plain = (fact: Fact, value: T): number => {
    const own = ofFact(fact);
    return own.includes(value) ? 1 / own.length : 0;
  };
  return {
    readings: values.length,
    plain: (fact, reading) => plain(fact, values[reading] as T),
    blind: () => 1 / values.length,
    canBe: (entry) => named(entry).length > 0,
    patterns: (fact, entries, wrong) => {
      // The part truly is one value; true entries name it, slips name anything.
      const slipped = entries.reduce(
        (product, entry) => (wrong.has(entry.id) ? (product * named(entry).length) / values.length : product),
        1,
      );
      const both = values.map((value) => {
        const truly = fact === null ? 1 / values.length : plain(fact, value);
        return entries.every((entry) => wrong.has(entry.id) || named(entry).includes(value)) ? truly * slipped : 0;
      });
      const chance = both.reduce((sum, each) => sum + each, 0);
      return { chance, again: (reading) => (chance === 0 ? 0 : (both[reading] as number) / chance) };
    },
  };
};

const ofMeasure = (feature: Feature, facts: readonly Fact[]): OfFeature => {
  const { below, above } = feature.wear ?? { below: 0, above: 0 };
  const limits = (fact: Fact): readonly [number, number] => {
    if (fact.kind !== 'measure') throw new Error(`${feature.id} is a measure; the atlas has a ${fact.kind}`);
    return [fact.nominal + fact.lower - below, fact.nominal + fact.upper + above];
  };
  const u = (feature.resolution ?? 0) / Math.sqrt(3);
  const ends = facts.flatMap(limits);
  // Of a size nobody knows of any part there is one reading, over a span of one.
  const unknown = ends.length === 0;
  const [low, high] = unknown ? [0, 1] : [Math.min(...ends), Math.max(...ends)];
  const spare = unknown ? 0 : Math.max(4 * u, Math.max(Math.abs(low), Math.abs(high), 1) / 100);
  const width = high - low + 2 * spare;
  const middles = [...new Set(facts.map((fact) => (limits(fact)[0] + limits(fact)[1]) / 2))].sort((a, b) => a - b);
  const cuts = [
    Number.NEGATIVE_INFINITY,
    ...middles.slice(1).map((middle, i) => (middle + (middles[i] as number)) / 2),
    Number.POSITIVE_INFINITY,
  ];
  const kept = new Map<string, number>();
  const plain = (fact: Fact, reading: number): number => {
    const [least, greatest] = limits(fact);
    const key = `${least} ${greatest} ${reading}`;
    const before = kept.get(key);
    if (before !== undefined) return before;
    const made = readsBelow(cuts[reading + 1] as number, least, greatest, u) - readsBelow(cuts[reading] as number, least, greatest, u);
    kept.set(key, made);
    return made;
  };
  const blind = (reading: number): number =>
    unknown ? 1 : (Math.min(cuts[reading + 1] as number, high + spare) - Math.max(cuts[reading] as number, low - spare)) / width;
  return {
    readings: Math.max(middles.length, 1),
    plain,
    blind,
    canBe: () => true,
    patterns: (fact, entries, wrong) => {
      const slipped = width ** -wrong.size;
      const right = entries.flatMap(({ id, value, sure }) => {
        if (value.kind !== 'measure' || sure.kind !== 'measured') throw new Error(`${feature.id} was not measured`);
        return wrong.has(id) ? [] : [{ x: value.value, u: sure.u }];
      });
      if (right.length === 0) return { chance: slipped, again: (reading) => (fact === null ? blind(reading) : plain(fact, reading)) };
      const truly = fact === null ? densityOfAll(right, null) / width : densityOfAll(right, limits(fact));
      // All true readings of one size are one reading, where their mean lies, each by one over its square uncertainty.
      const mean =
        right.reduce((sum, each) => sum + each.x / (each.u * each.u), 0) / right.reduce((sum, each) => sum + 1 / (each.u * each.u), 0);
      const at = unknown ? 0 : middles.findIndex((_, reading) => mean >= (cuts[reading] as number) && mean < (cuts[reading + 1] as number));
      return { chance: truly * slipped, again: (reading) => (reading === at ? 1 : 0) };
    },
  };
};

/** Density of several readings of one size together: of a size anywhere within limits alike, or, with none, times the width of where it may lie. */
const densityOfAll = (
  readings: readonly { readonly x: number; readonly u: number }[],
  limits: readonly [number, number] | null,
): number => {
  const [first] = readings;
  if (first === undefined) return 1;
  if (limits !== null && readings.length === 1) return densityAt(first.x, limits[0], limits[1], first.u);
  const at = (x: number): number =>
    readings.reduce((product, each) => (product * Math.exp(-(((each.x - x) / each.u) ** 2) / 2)) / (each.u * Math.sqrt(2 * Math.PI)), 1);
  if (limits !== null && limits[0] === limits[1]) return at(limits[0]);
  if (limits === null && readings.length === 1) return 1;
  const finest = Math.min(...readings.map((each) => each.u));
  const from = Math.max(limits?.[0] ?? Number.NEGATIVE_INFINITY, ...readings.map((each) => each.x - 10 * each.u));
  const to = Math.min(limits?.[1] ?? Number.POSITIVE_INFINITY, ...readings.map((each) => each.x + 10 * each.u));
  return integral(at, from, to, finest / 8) / (limits === null ? 1 : limits[1] - limits[0]);
};
