import type { Atlas, Fact, FeatureId, Operation, Part, PartId } from '../../reasoner/index.ts';

/**
 * A second reading of SPEC §Machined, in plain millimetres and spelt out: every way a part may be found is a row of its own, one for each choice, dimension
 * by dimension, of *as made* or *as one operation left it*. What is asked of parts is then asked of rows.
 */
export const rowsOf = (atlas: Atlas, part: Part): Part[] => {
  const operations = (atlas.operations ?? []).filter((operation) => operation.slot === part.slot);
  let rows: { id: string; facts: Record<FeatureId, Fact> }[] = [{ id: part.id, facts: { ...part.facts } }];
  for (const feature of atlas.features.filter(({ slot }) => slot === part.slot)) {
    const left = operations.flatMap((operation) => (canTake(operation, part) ? leftBy(operation, feature.id, part) : []));
    rows = rows.flatMap((row) => [
      row,
      ...left.map((fact, k) => ({ id: `${row.id}#${feature.id}:${k}`, facts: { ...row.facts, [feature.id]: fact } })),
    ]);
  }
  return rows.map((row) => ({ ...part, id: row.id as PartId, facts: row.facts }));
};

/** The part a row is of. */
export const partOfRow = (row: string): PartId => (row.split('#')[0] ?? row) as PartId;

/** Each part once, in any order of its rows. */
export const partsOfRows = (rows: Iterable<string>): PartId[] => [...new Set([...rows].map(partOfRow))];

/** Parts found among these rows, none of which is the part as made throughout. */
export const machinedOnly = (rows: readonly string[]): PartId[] => partsOfRows(rows).filter((part) => !rows.includes(part));

const canTake = ({ takes }: Operation, part: Part): boolean => {
  for (const { feature, anyOf } of takes) {
    const fact = part.facts[feature];
    if (fact?.kind === 'choice' && fact.anyOf.filter((option) => anyOf.includes(option)).length === 0) return false;
  }
  return true;
};

const leftBy = ({ does }: Operation, feature: FeatureId, part: Part): Fact[] => {
  const made = part.facts[feature];
  if (made === undefined || made.kind === 'not known') return [];
  const [least, greatest] = made.kind === 'measure' ? [made.nominal + made.lower, made.nominal + made.upper] : [Number.NaN, Number.NaN];
  const thickest = (wall: FeatureId): number => {
    const fact = part.facts[wall];
    return fact?.kind === 'measure' ? fact.nominal + fact.upper : Number.POSITIVE_INFINITY;
  };
  switch (does.kind) {
    case 'cut': {
      const takenOff = (cut: (typeof does.cuts)[number]): number =>
        Math.max(0, Math.min(cut.most, ...cut.metal.map((wall) => (thickest(wall.feature) - wall.leaves) * wall.per)));
      const found: Fact[] = [];
      for (const cut of does.cuts) {
        if (cut.feature !== feature) continue;
        found.push(...(cut.way === 'larger' ? size(greatest, greatest + takenOff(cut)) : size(least - takenOff(cut), least)));
      }
      const eating = does.cuts.filter((cut) => cut.metal.some((wall) => wall.feature === feature));
      if (eating.length > 0) {
        let [gone, stays] = [0, Number.NEGATIVE_INFINITY];
        for (const cut of eating) {
          for (const wall of cut.metal.filter((each) => each.feature === feature)) {
            gone += takenOff(cut) / wall.per;
            stays = Math.max(stays, wall.leaves);
          }
        }
        found.push(...size(Math.max(stays, least - gone), least));
      }
      const [down, up] = does.cuts.reduce(
        ([low, high], cut) =>
          cut.moves
            .filter((move) => move.feature === feature)
            .reduce(([l, h], { times }) => (times < 0 ? [l + times * takenOff(cut), h] : [l, h + times * takenOff(cut)]), [low, high] as [
              number,
              number,
            ]),
        [0, 0] as [number, number],
      );
      found.push(...size(least + down, least), ...size(greatest, greatest + up));
      return found;
    }
    case 'ring':
      if (does.feature !== feature) return [];
      return does.way === 'larger' ? size(least + 2 * does.wall, without) : size(0, greatest - 2 * does.wall);
    case 'drill a circle': {
      const smallest = Math.min(...Object.values(does.holes));
      const inner = part.facts[does.land.inner];
      const from = (inner?.kind === 'measure' ? inner.nominal + inner.lower : 0) + smallest + 2 * does.edge;
      const to = thickest(does.land.outer) - smallest - 2 * does.edge;
      if (from > to) return [];
      if (feature === does.count) return counts(made, 1, without);
      if (feature === does.bolt) return options(made, Object.keys(does.holes));
      return feature === does.diameter ? [...size(from, Math.min(to, least)), ...size(Math.max(from, greatest), to)] : [];
    }
    case 'remake':
      return does.offers.filter((offer) => offer.feature === feature).flatMap((offer) => remade(offer, made, least, greatest));
  }
};

const remade = (
  offer: Extract<Operation['does'], { kind: 'remake' }>['offers'][number],
  made: Fact,
  least: number,
  greatest: number,
): Fact[] => {
  switch (offer.kind) {
    case 'choice':
      return options(made, offer.anyOf);
    case 'count':
      return counts(made, offer.from, offer.to);
    case 'measure': {
      const [from, to] = [offer.from - offer.within, offer.to + offer.within];
      return [...size(from, Math.min(to, least)), ...size(Math.max(from, greatest), to)];
    }
    case 'presence':
      return made.kind === 'presence' && !made.present ? [{ kind: 'presence', present: true }] : [];
  }
};

/** Larger than anything. */
const without = 1e6;

const size = (from: number, to: number): Fact[] => {
  const end = Math.min(to, without);
  return from < end ? [{ kind: 'measure', nominal: from, lower: 0, upper: end - from }] : [];
};

const counts = (made: Fact, from: number, to: number): Fact[] => {
  if (made.kind !== 'count') return [];
  const fewer: Fact = { kind: 'count', from, to: Math.min(to, made.from - 1) };
  const more: Fact = { kind: 'count', from: Math.max(from, made.to + 1), to };
  return [fewer, more].filter((fact) => fact.kind === 'count' && fact.from <= fact.to);
};

const options = (made: Fact, offered: readonly string[]): Fact[] => {
  const others = made.kind === 'choice' ? offered.filter((option) => !made.anyOf.includes(option)) : [];
  return others.length > 0 ? [{ kind: 'choice', anyOf: others }] : [];
};
