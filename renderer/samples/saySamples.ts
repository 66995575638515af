import type { Feature, MeasureStatistics } from '../../reasoner/index.ts';
import { sayMeasure } from '../values/lengths.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { sayMany } from '../values/sayMany.ts';

type How = readonly [feature: Feature | undefined, unit: LengthUnit];

const say = (value: number, [feature, unit]: How): string => sayMeasure(value, feature?.unit === 'deg' ? 'deg' : 'mm', unit);
const bare = (value: number, how: How): string => say(value, how).replace(/ (mm|in)$|°$/, '');

/** `52.031 ± 0.012 mm`, or of one part its reading. */
export const sayMean = ({ mean, spread }: MeasureStatistics, ...how: How): string =>
  spread === null ? say(mean, how) : `${bare(mean, how)} ± ${say(spread, how)}`;

/** What stands behind it: how many, and whether the spread is the parts' or the measuring's. */
export const sayBehind = ({ n, spread, measuring }: MeasureStatistics, ...how: How): string =>
  spread === null
    ? 'one part: too few for a spread'
    : `${sayMany(n, 'part')}${measuring > spread / 2 ? `; measuring alone gives ± ${say(measuring, how)}` : ''}`;

export const sayLimits = ({ limits, noLimits }: MeasureStatistics, ...how: How): string => {
  if (limits !== null) return `${bare(limits.lower, how)} to ${say(limits.upper, how)}`;
  return noLimits === 'all alike' ? 'none: all read alike' : 'too few for limits';
};
