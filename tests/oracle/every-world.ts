import type {
  Assumptions,
  Atlas,
  Fact,
  Feature,
  FeatureId,
  ModelId,
  Observation,
  Part,
  PartId,
  Sheet,
  SlotId,
} from '../../reasoner/index.ts';
import { densityAt, readsBelow } from './quadrature.ts';
import { readQuestion } from './reading.ts';

/**
 * The odds (Q1) by brute force: every model a unit can have been built as, every choice of slots that were swapped since, every part in every slot and the
 * unlisted one. Written from reasoner/SPEC.md “Odds”, sharing no code with reasoner/odds; names and joints come from reading.ts.
 */
export interface Counted {
  readonly worlds: number;
  readonly built: ReadonlyMap<ModelId, number>;
  /** By the names met on the best rank, as `reading.ts` calls them, sorted and joined. */
  readonly targets: ReadonlyMap<string, number>;
  readonly parts: ReadonlyMap<SlotId, ReadonlyMap<PartId | 'unlisted', number>>;
  /** Entropy of the targets. */
  readonly bits: number;
  /** Expected drop by every feature that can still be asked about. */
  readonly drops: ReadonlyMap<FeatureId, number>;
}

/** How many choices there are to go through. */
export const worldsOf = (atlas: Atlas, sheet: Sheet): number => {
  const known = builtFrom(atlas, sheet);
  return atlas.models.reduce(
    (sum, { id }) =>
      sum +
      atlas.slots.reduce((product, slot) => {
        const { listed, fitting } = known(id, slot.id);
        return product * (listed.length + fitting.length + 1);
      }, 1),
    0,
  );
};

type Held = Part | 'unlisted';

/** @returns null where the observations can never be made */
export const everyWorld = (atlas: Atlas, sheet: Sheet, assumptions: Assumptions): Counted | null => {
  const { swapped, unlisted, slip } = assumptions;
  const known = builtFrom(atlas, sheet);
  const seen = sheet.observations.filter(({ sure }) => sure.kind !== 'told');
  const asked = new Map(atlas.features.map((feature) => [feature.id, ofFeature(atlas, feature)] as const));
  const names = namesMet(atlas, sheet);
  const likelihoodOf = new Map(atlas.slots.map((slot) => [slot.id, new Map<Held, number>()]));
  const likelihood = (slot: SlotId, held: Held): number => {
    const before = likelihoodOf.get(slot)?.get(held);
    if (before !== undefined) return before;
    const made = seen
      .filter((each) => each.slot === slot)
      .reduce((product, each) => {
        const feature = asked.get(each.feature) as OfFeature;
        const fact = factOf(held, each.feature);
        const blind = feature.blindlySeen(each);
        return product * (fact === null ? blind : (1 - slip) * feature.plainlySeen(fact, each) + slip * blind);
      }, 1);
    likelihoodOf.get(slot)?.set(held, made);
    return made;
  };

  const targets = new Map<string, number>();
  const built = new Map<ModelId, number>();
  /** slot, part, target */
  const joint = atlas.slots.map(() => new Map<Held, Map<string, number>>());
  let all = 0;
  let worlds = 0;
  const holds: Held[] = [];
  const visit = (model: ModelId, at: number, chance: number): void => {
    if (chance === 0) return;
    const slot = atlas.slots[at];
    if (slot === undefined) {
      worlds += 1;
      const target = names(holds);
      all += chance;
      built.set(model, (built.get(model) ?? 0) + chance);
      targets.set(target, (targets.get(target) ?? 0) + chance);
      holds.forEach((held, i) => {
        const own = joint[i]?.get(held) ?? new Map<string, number>();
        joint[i]?.set(held, own);
        own.set(target, (own.get(target) ?? 0) + chance);
      });
      return;
    }
    const put = (held: Held, share: number): void => {
      holds[at] = held;
      visit(model, at + 1, chance * share * likelihood(slot.id, held));
    };
    const { listed, fitting } = known(model, slot.id);
    for (const part of listed) put(part, (1 - swapped) / listed.length);
    const since = listed.length === 0 ? 1 : swapped;
    if (fitting.length === 0) put('unlisted', since);
    else {
      for (const part of fitting) put(part, (since * (1 - unlisted)) / fitting.length);
      put('unlisted', since * unlisted);
    }
  };
  for (const { id } of atlas.models) visit(id, 0, 1 / atlas.models.length);
  if (all === 0) return null;

  const share = <K>(map: ReadonlyMap<K, number>): Map<K, number> => new Map([...map].map(([key, chance]) => [key, chance / all]));
  const bits = entropy([...targets.values()].map((chance) => chance / all));
  const given = new Set([...seen.map(({ feature }) => feature), ...(sheet.unseen ?? []).map(({ feature }) => feature)]);
  const open = atlas.features.filter(({ id, slot }) => !given.has(id) && !sheet.absent.includes(slot));
  const drops = open.map(({ id, slot }): [FeatureId, number] => {
    const { readings, plain, blind } = asked.get(id) as OfFeature;
    const own = joint[atlas.slots.findIndex((each) => each.id === slot)] as ReadonlyMap<Held, ReadonlyMap<string, number>>;
    let left = 0;
    for (let reading = 0; reading < readings; reading += 1) {
      const after = new Map<string, number>();
      for (const [held, of] of own) {
        const fact = factOf(held, id);
        const chance = fact === null ? blind(reading) : (1 - slip) * plain(fact, reading) + slip * blind(reading);
        for (const [target, both] of of) after.set(target, (after.get(target) ?? 0) + (both * chance) / all);
      }
      const sum = [...after.values()].reduce((total, chance) => total + chance, 0);
      if (sum > 0) left += sum * entropy([...after.values()].map((chance) => chance / sum));
    }
    return [id, bits - left];
  });
  return {
    worlds,
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
    drops: new Map(drops),
  };
};

const entropy = (chances: readonly number[]): number =>
  chances.reduce((sum, chance) => (chance > 0 ? sum - (chance * Math.log(chance)) / Math.LN2 : sum), 0);

const factOf = (held: Held, feature: FeatureId): Fact | null => {
  if (held === 'unlisted') return null;
  const fact = held.facts[feature];
  return fact === undefined || fact.kind === 'not known' ? null : fact;
};

/** For a model and slot: the parts the model lists there, those that took their place included; and the parts that meet some listed part across every joint. */
const builtFrom = (atlas: Atlas, sheet: Sheet) => {
  const byId = new Map(atlas.parts.map((part) => [part.id, part]));
  const listedIn = (model: ModelId, slot: SlotId): Part[] => {
    const own = new Set(
      atlas.models
        .find(({ id }) => id === model)
        ?.allowed.filter((entry) => entry.slot === slot)
        .map(({ part }) => part),
    );
    return atlas.parts.filter((part) => {
      if (part.slot !== slot) return false;
      for (let at: Part | undefined = part; at !== undefined; at = at.supersedes === undefined ? undefined : byId.get(at.supersedes))
        if (own.has(at.id)) return true;
      return false;
    });
  };
  const joints = readQuestion(atlas, sheet, { names: () => false }).joints.map(({ a, b, fails }) => ({
    a,
    b,
    fails: new Set(fails.map(([p, q]) => `${p} ${q}`)),
  }));
  const fittingIn = (model: ModelId, slot: SlotId): Part[] =>
    atlas.parts.filter(
      (part) =>
        part.slot === slot &&
        joints.every(({ a, b, fails }) => {
          if (a !== slot && b !== slot) return true;
          const beside = listedIn(model, a === slot ? b : a);
          return (
            beside.length === 0 || beside.some((other) => !fails.has(a === slot ? `${part.id} ${other.id}` : `${other.id} ${part.id}`))
          );
        }),
    );
  const kept = new Map<string, { listed: Part[]; fitting: Part[] }>();
  return (model: ModelId, slot: SlotId) => {
    const key = `${model} ${slot}`;
    const before = kept.get(key);
    if (before !== undefined) return before;
    const made = { listed: listedIn(model, slot), fitting: fittingIn(model, slot) };
    kept.set(key, made);
    return made;
  };
};

/** Ladder without hybrids and without the two rungs that tell a model's options and service parts apart; best first. */
const rungs = ['model with service parts replaced ', 'core ', 'family ', 'family core', 'pattern core ', 'parts'] as const;

const rungOf = (meaning: string): number => {
  if (meaning.startsWith('family ')) return meaning.endsWith(' core') ? 3 : 2;
  return rungs.findIndex((rung) => meaning.startsWith(rung));
};

/** The names on the best rank that a full set of parts meets. An absent slot meets no demand. */
const namesMet = (atlas: Atlas, sheet: Sheet): ((holds: readonly Held[]) => string) => {
  const housings = atlas.slots.filter(({ group }) => group === 'housing').map(({ id }) => id);
  const anyHousings = housings.map((slot) => ` ${slot}:unidentified`).join('');
  const wanted = (meaning: string): boolean => rungOf(meaning) >= 0 && (!meaning.startsWith('core ') || meaning.endsWith(anyHousings));
  const { demands, absent } = readQuestion(atlas, sheet, { names: wanted });
  const ranked = demands
    .flatMap(({ names, allowed }) => names.map((name) => ({ name, rank: rungOf(name), allowed: [...allowed] })))
    .sort((a, b) => a.rank - b.rank);
  const at = new Map(atlas.slots.map(({ id }, i) => [id, i]));
  return (holds) => {
    const met: string[] = [];
    let best = Number.POSITIVE_INFINITY;
    for (const { name, rank, allowed } of ranked) {
      if (rank > best) break;
      const meets = allowed.every(([slot, parts]) => {
        const held = holds[at.get(slot) as number];
        return !absent.has(slot) && held !== undefined && held !== 'unlisted' && parts.has(held.id);
      });
      if (!meets) continue;
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
  readonly plainlySeen: (fact: Fact, observation: Observation) => number;
  readonly blindlySeen: (observation: Observation) => number;
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
    plainlySeen: (fact, observation) => named(observation).reduce((sum, value) => sum + plain(fact, value), 0),
    blindlySeen: (observation) => named(observation).length / values.length,
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
  if (ends.length === 0) return { readings: 1, plain: () => 1, blind: () => 1, plainlySeen: () => 1, blindlySeen: () => 1 };
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const spare = Math.max(4 * u, Math.max(Math.abs(low), Math.abs(high), 1) / 100);
  const width = high - low + 2 * spare;
  const middles = [...new Set(facts.map((fact) => (limits(fact)[0] + limits(fact)[1]) / 2))].sort((a, b) => a - b);
  const cuts = [
    Number.NEGATIVE_INFINITY,
    ...middles.slice(1).map((middle, i) => (middle + (middles[i] as number)) / 2),
    Number.POSITIVE_INFINITY,
  ];
  const kept = new Map<string, number>();
  return {
    readings: middles.length,
    plain: (fact, reading) => {
      const [least, greatest] = limits(fact);
      const key = `${least} ${greatest} ${reading}`;
      const before = kept.get(key);
      if (before !== undefined) return before;
      const made = readsBelow(cuts[reading + 1] as number, least, greatest, u) - readsBelow(cuts[reading] as number, least, greatest, u);
      kept.set(key, made);
      return made;
    },
    blind: (reading) => (Math.min(cuts[reading + 1] as number, high + spare) - Math.max(cuts[reading] as number, low - spare)) / width,
    plainlySeen: (fact, { value, sure }) => {
      const [least, greatest] = limits(fact);
      if (value.kind !== 'measure' || sure.kind !== 'measured') throw new Error(`${feature.id} was not measured`);
      return densityAt(value.value, least, greatest, sure.u);
    },
    blindlySeen: () => 1 / width,
  };
};
