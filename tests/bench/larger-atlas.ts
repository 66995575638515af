import { type Atlas, asId, type Fact, type FeatureId, type Id, type Model, type Part } from '../../reasoner/index.ts';

/**
 * An atlas `times` as large, made of copies of the given one: copy k has its own families, models and parts, all of it
 * 0.4 k per cent larger, with size and part marks and names of its own; makers, slots, joints and what is cast in a maker's name stay.
 * So copies look alike in what is counted and chosen, and differ in what is measured, as makers' catalogues do.
 */
export const largerAtlas = (atlas: Atlas, times: number): Atlas => {
  const tradeNames = new Set(atlas.makers.flatMap((maker) => maker.tradeNames.map(({ name }) => name.toLowerCase())));
  const copies = Array.from({ length: times }, (_, k) => (k === 0 ? atlas : copyOf(atlas, k, tradeNames)));
  return {
    ...atlas,
    edition: `${atlas.edition} × ${times}`,
    families: copies.flatMap((copy) => copy.families),
    generations: copies.flatMap((copy) => copy.generations),
    models: copies.flatMap((copy) => copy.models),
    parts: copies.flatMap((copy) => copy.parts),
  };
};

const copyOf = (atlas: Atlas, k: number, tradeNames: ReadonlySet<string>): Pick<Atlas, 'families' | 'generations' | 'models' | 'parts'> => {
  const own = <T extends Id<string>>(id: T): T => asId<T>(`${id}:${k}`);
  const orNone = <T extends Id<string>>(id: T | null): T | null => (id === null ? null : own(id));
  const fact = (known: Fact): Fact => {
    switch (known.kind) {
      case 'measure':
        return { ...known, nominal: Math.round(known.nominal * (1 + 0.004 * k) * 1000) / 1000 };
      case 'mark':
        return { ...known, anyOf: known.anyOf.map((text) => (tradeNames.has(text.toLowerCase()) ? text : `${text} ${k}`)) };
      default:
        return known;
    }
  };
  return {
    families: atlas.families.map((family) => ({
      ...family,
      id: own(family.id),
      name: `${family.name} ${k}`,
      descendsFrom: family.descendsFrom.map(own),
      succeeds: family.succeeds.map(own),
      patternOf: family.patternOf.map(own),
    })),
    generations: atlas.generations.map((one) => ({ ...one, id: own(one.id), family: own(one.family), succeeds: orNone(one.succeeds) })),
    models: atlas.models.map(
      (model): Model => ({
        ...model,
        id: own(model.id),
        name: `${model.name} ${k}`,
        family: own(model.family),
        generation: orNone(model.generation),
        patternOf: orNone(model.patternOf),
        allowed: model.allowed.map((entry) => ({ ...entry, part: own(entry.part) })),
      }),
    ),
    parts: atlas.parts.map(
      ({ patternOf, supersedes, ...part }): Part => ({
        ...part,
        id: own(part.id),
        numbers: part.numbers.map((number) => `${number}-${k}`),
        ...(patternOf === undefined ? {} : { patternOf: own(patternOf) }),
        ...(supersedes === undefined ? {} : { supersedes: own(supersedes) }),
        facts: Object.fromEntries(Object.entries(part.facts).map(([id, known]) => [id, fact(known)])) as Record<FeatureId, Fact>,
      }),
    ),
  };
};
