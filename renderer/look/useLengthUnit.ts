import { useShop } from '../bridge/ShopContext.ts';
import { type LengthUnit, lengthUnits } from '../values/readSeen.ts';
import { usePreference } from './preference.ts';

/** mm or inch: what was chosen on this computer, else what the shop says. */
export const useLengthUnit = (): [LengthUnit, (unit: LengthUnit) => void] =>
  usePreference('length unit', lengthUnits, useShop().settings.measures.unit);
