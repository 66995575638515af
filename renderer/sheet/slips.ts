import type { Feature, FeatureId, Observation, Seen, Sheet, Sure } from '../../reasoner/index.ts';

type Figures = Pick<Observation, 'value' | 'sure'>;

/**
 * Whether an entry needs no asking about (O7): its figures lie in the feature's range, and its uncertainty is no wider than that. Of everything else the
 * desk is asked. It is decided here so that the usual entry goes on the sheet at once.
 */
export const isUsual = ({ plausible: range }: Feature, { value, sure }: Figures): boolean => {
  if (value.kind !== 'measure' && value.kind !== 'count') return true;
  if (range === undefined) return value.kind === 'count' || value.value > 0;
  const [least, greatest] = value.kind === 'count' ? [value.from, value.to] : [value.value, value.value];
  return least >= range.from && greatest <= range.to && (sure.kind !== 'measured' || sure.u <= range.to - range.from);
};

/** Whether a number off the plate is to be read beside what else the plate says. What is told is a claim, and read as one. */
export const isNumber = ({ says }: Feature, value: Seen, sure: Sure): boolean =>
  (says === 'part number' || says === 'serial number') && value.kind === 'mark' && value.text !== null && sure.kind !== 'told';

/** Whether an entry changed says still what was confirmed; a size comes back from another unit a little off. */
export const saysTheSame = (a: Seen, b: Seen): boolean =>
  a.kind === 'measure' && b.kind === 'measure' ? Math.abs(a.value - b.value) < 0.001 : JSON.stringify(a) === JSON.stringify(b);

/** An entry, confirmed where somebody has said on this sheet already that it is what was read: the same of the same feature is asked about once (O7). */
export const confirmedAsBefore = <One extends Pick<Observation, 'value' | 'confirmed'>>(
  { observations }: Pick<Sheet, 'observations'>,
  feature: FeatureId,
  entry: One,
): One =>
  observations.some((one) => one.feature === feature && one.confirmed === true && saysTheSame(one.value, entry.value))
    ? { ...entry, confirmed: true }
    : entry;
