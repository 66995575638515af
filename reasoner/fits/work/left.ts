import type { Fact } from '../../atlas/atlas.ts';
import type { Cut, Doing, Offer, Operation, OperationId } from '../../atlas/operation.ts';
import type { FeatureId } from '../../ids.ts';
import { type Limits, limitsOf, millimetres, nanometres } from '../limits.ts';

/** What an operation could have left of one dimension of a part, beyond what the part is made with. */
export interface Left {
  readonly operation: OperationId;
  readonly fact: Fact;
}

/** One feature of a part as a found unit may show it (O2, J1): as it is made, or as an operation of the atlas left it, whoever did it. */
export interface AsFound {
  readonly made: Fact;
  readonly left: readonly Left[];
}

type FactOf = (feature: FeatureId) => Fact | undefined;

/**
 * What each operation could have left of a feature, given all the atlas knows of the part. Each is a range of its own beside the sizes the part is made with, not
 * over them: a size within the limits says of no work. Metal goes as far as the operation takes it and as the walls that are known allow; a wall that is
 * not known bounds nothing, and what is not known of the feature itself stays not known. What must be left is asked of the thickest good example, since a unit
 * is one part and not all of them. Sizes are judged one by one: that a recess and its wall change together is not asked.
 */
export const leftOf = (operations: readonly Operation[], feature: FeatureId, factOf: FactOf): readonly Left[] => {
  const made = factOf(feature);
  if (made === undefined || made.kind === 'not known') return [];
  return operations.flatMap((operation) =>
    takesIt(operation, factOf) ? leftBy(operation.does, feature, made, factOf).map((fact) => ({ operation: operation.id, fact })) : [],
  );
};

/** The features `leftOf` reads of a part, this one first; alone where no operation changes it. */
export const readForLeft = (operations: readonly Operation[], feature: FeatureId): readonly FeatureId[] => [
  ...new Set([
    feature,
    ...operations.flatMap((operation) =>
      changedBy(operation.does).includes(feature) ? [...operation.takes.map((each) => each.feature), ...boundsOf(operation.does)] : [],
    ),
  ]),
];

/** Every feature an operation may change. */
export const changedBy = (does: Doing): readonly FeatureId[] => {
  switch (does.kind) {
    case 'cut':
      return does.cuts.flatMap((each) => [each.feature, ...[...each.metal, ...each.moves].map(({ feature }) => feature)]);
    case 'ring':
      return [does.feature];
    case 'drill a circle':
      return [does.count, does.diameter, does.bolt];
    case 'remake':
      return does.offers.map(({ feature }) => feature);
  }
};

const boundsOf = (does: Doing): readonly FeatureId[] => {
  switch (does.kind) {
    case 'cut':
      return does.cuts.flatMap(({ metal }) => metal.map(({ feature }) => feature));
    case 'drill a circle':
      return [does.land.inner, does.land.outer];
    case 'ring':
    case 'remake':
      return [];
  }
};

/** Where good examples come in several metals, one of which can be cut, this one may be of that. */
const takesIt = ({ takes }: Operation, factOf: FactOf): boolean =>
  takes.every(({ feature, anyOf }) => {
    const fact = factOf(feature);
    return fact?.kind !== 'choice' || fact.anyOf.some((option) => anyOf.includes(option));
  });

const leftBy = (does: Doing, feature: FeatureId, made: Known, factOf: FactOf): readonly Fact[] => {
  switch (does.kind) {
    case 'cut':
      return [
        ...cutDirectly(does.cuts, feature, made, factOf),
        ...thinned(does.cuts, feature, made, factOf),
        ...moved(does.cuts, feature, made, factOf),
      ];
    case 'ring': {
      if (does.feature !== feature || made.kind !== 'measure') return [];
      const { low, high } = limitsOf(made);
      const wall = 2 * nanometres(does.wall);
      return does.way === 'larger' ? between(low + wall, Number.POSITIVE_INFINITY) : between(0, high - wall);
    }
    case 'drill a circle':
      return drilled(does, feature, made, factOf);
    case 'remake':
      return does.offers.flatMap((offer) => (offer.feature === feature ? remade(offer, made) : []));
  }
};

type Known = Exclude<Fact, { kind: 'not known' }>;

const limitsIn = (factOf: FactOf, feature: FeatureId): Limits | null => {
  const fact = factOf(feature);
  return fact?.kind === 'measure' ? limitsOf(fact) : null;
};

/** The most a cut can have taken off one part, nm; nothing where even the thickest wall has none to give. */
const mostOff = (cut: Cut, factOf: FactOf): number => {
  let most = nanometres(cut.most);
  for (const { feature, per, leaves } of cut.metal) {
    const wall = limitsIn(factOf, feature);
    if (wall !== null) most = Math.min(most, per * (wall.high - nanometres(leaves)));
  }
  return Math.max(0, most);
};

const cutDirectly = (cuts: readonly Cut[], feature: FeatureId, made: Known, factOf: FactOf): readonly Fact[] =>
  cuts.flatMap((cut) => {
    if (cut.feature !== feature || made.kind !== 'measure') return [];
    const { low, high } = limitsOf(made);
    const off = mostOff(cut, factOf);
    return cut.way === 'larger' ? between(high, high + off) : between(low - off, low);
  });

/** A wall that cuts of one setting eat into: at worst by all of them, and never to less than must be left. */
const thinned = (cuts: readonly Cut[], feature: FeatureId, made: Known, factOf: FactOf): readonly Fact[] => {
  const eaten = cuts.flatMap((cut) =>
    cut.metal.flatMap((wall) =>
      wall.feature === feature ? [{ off: mostOff(cut, factOf) / wall.per, leaves: nanometres(wall.leaves) }] : [],
    ),
  );
  if (eaten.length === 0 || made.kind !== 'measure') return [];
  const { low } = limitsOf(made);
  const off = eaten.reduce((sum, each) => sum + each.off, 0);
  return between(Math.max(low - off, ...eaten.map(({ leaves }) => leaves)), low);
};

/** A dimension that moves with others of one setting, either way. */
const moved = (cuts: readonly Cut[], feature: FeatureId, made: Known, factOf: FactOf): readonly Fact[] => {
  const moves = cuts.flatMap((cut) => cut.moves.flatMap((each) => (each.feature === feature ? [each.times * mostOff(cut, factOf)] : [])));
  if (moves.length === 0 || made.kind !== 'measure') return [];
  const { low, high } = limitsOf(made);
  const down = moves.reduce((sum, by) => sum + Math.min(0, by), 0);
  const up = moves.reduce((sum, by) => sum + Math.max(0, by), 0);
  return [...between(low + down, low), ...between(high, high + up)];
};

/** Another circle of holes anywhere on the land, for any bolt the shop works with; that it must clear the old holes is not asked here. */
const drilled = (does: Extract<Doing, { kind: 'drill a circle' }>, feature: FeatureId, made: Known, factOf: FactOf): readonly Fact[] => {
  const bolts = Object.keys(does.holes);
  const around = nanometres(Math.min(...Object.values(does.holes)) + 2 * does.edge);
  const from = (limitsIn(factOf, does.land.inner)?.low ?? 0) + around;
  const to = (limitsIn(factOf, does.land.outer)?.high ?? Number.POSITIVE_INFINITY) - around;
  if (bolts.length === 0 || from > to) return [];
  switch (feature) {
    case does.count:
      return otherCounts(made, 1, Number.MAX_SAFE_INTEGER);
    case does.diameter:
      return otherSizes(made, from, to);
    case does.bolt:
      return otherOptions(made, bolts);
    default:
      return [];
  }
};

const remade = (offer: Offer, made: Known): readonly Fact[] => {
  switch (offer.kind) {
    case 'choice':
      return otherOptions(made, offer.anyOf);
    case 'count':
      return otherCounts(made, offer.from, offer.to);
    case 'measure':
      return otherSizes(made, nanometres(offer.from - offer.within), nanometres(offer.to + offer.within));
    case 'presence':
      // A need cannot be made away with; only what is offered can be added.
      return made.kind === 'presence' && !made.present ? [{ kind: 'presence', present: true }] : [];
  }
};

const otherCounts = (made: Known, from: number, to: number): readonly Fact[] =>
  made.kind !== 'count'
    ? []
    : [
        { from, to: Math.min(to, made.from - 1) },
        { from: Math.max(from, made.to + 1), to },
      ].flatMap((range): Fact[] => (range.from <= range.to ? [{ kind: 'count', ...range }] : []));

const otherOptions = (made: Known, options: readonly string[]): readonly Fact[] => {
  if (made.kind !== 'choice') return [];
  const others = options.filter((option) => !made.anyOf.includes(option));
  return others.length === 0 ? [] : [{ kind: 'choice', anyOf: others }];
};

/** Sizes on either side of those the part is made with, nm. */
const otherSizes = (made: Known, from: number, to: number): readonly Fact[] => {
  if (made.kind !== 'measure') return [];
  const { low, high } = limitsOf(made);
  return [...between(from, Math.min(to, low)), ...between(Math.max(from, high), to)];
};

/** Sizes without an end end here, mm: no part comes near it, and it is a number like any other. */
const endless = 1e6;

/** From one size to another, nm, where there is anything between them. */
const between = (from: number, to: number): readonly Fact[] => {
  const least = Math.max(-nanometres(endless), from);
  const greatest = Math.min(to, nanometres(endless));
  return least < greatest ? [{ kind: 'measure', nominal: millimetres(least), lower: 0, upper: millimetres(greatest - least) }] : [];
};
