import type { Operation } from '../fits/work/operation.ts';
import type { FeatureId } from '../ids.ts';

/** Every feature an operation reads or changes, of whichever slot. */
export const featuresOfOperation = (operation: Operation): readonly FeatureId[] => {
  const taken = operation.takes.map(({ feature }) => feature);
  const { does } = operation;
  switch (does.kind) {
    case 'cut':
      return [
        ...taken,
        ...does.cuts.flatMap((each) => [
          each.feature,
          ...each.metal.map(({ feature }) => feature),
          ...each.moves.map(({ feature }) => feature),
        ]),
      ];
    case 'ring':
      return [...taken, does.feature];
    case 'drill a circle':
      return [...taken, does.count, does.diameter, does.bolt, does.land.inner, does.land.outer];
    case 'remake':
      return [...taken, ...does.offers.map(({ feature }) => feature)];
  }
};

/** The features whose being wrong calls for the operation. */
export const featuresThatCall = ({ does }: Operation): readonly FeatureId[] => {
  switch (does.kind) {
    case 'cut':
      return does.cuts.map(({ feature }) => feature);
    case 'ring':
      return [does.feature];
    case 'drill a circle':
      return [does.count, does.diameter, does.bolt];
    case 'remake':
      return does.offers.map(({ feature }) => feature);
  }
};

/** The features a work of it may change. */
export const featuresChanged = ({ does }: Operation): readonly FeatureId[] => {
  switch (does.kind) {
    case 'cut':
      return does.cuts.flatMap((each) => [
        each.feature,
        ...each.metal.map(({ feature }) => feature),
        ...each.moves.map(({ feature }) => feature),
      ]);
    case 'ring':
      return [does.feature];
    case 'drill a circle':
      return [does.count, does.diameter, does.bolt];
    case 'remake':
      return does.offers.map(({ feature }) => feature);
  }
};
