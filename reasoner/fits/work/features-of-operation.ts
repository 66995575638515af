import type { Operation } from '../../atlas/operation.ts';
import type { FeatureId } from '../../ids.ts';
import { changedBy } from './left.ts';

/** Every feature an operation reads or changes, of whichever slot. */
export const featuresOfOperation = ({ takes, does }: Operation): readonly FeatureId[] => [
  ...takes.map(({ feature }) => feature),
  ...changedBy(does),
  ...(does.kind === 'drill a circle' ? [does.land.inner, does.land.outer] : []),
];

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
