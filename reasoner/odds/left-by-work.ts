import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { Observation } from '../sheet/sheet.ts';
import { excludersOf, type FeatureReadings, readingsOf, violatedBy } from '../unit/readings.ts';

/**
 * Entries of one slot that tell of work and nothing else (O2): no listed part that agrees with all of them, machined or not, agrees with such a one as it is made.
 * @param entries those of the slot that count as evidence
 */
export const leftByWork = (atlas: CompiledAtlas, slot: CompiledSlot, entries: readonly Observation[]): ReadonlySet<Observation> => {
  if (!entries.some(({ feature }) => slot.foundOf(feature).worked)) return new Set();
  const readings = readingsOf(
    atlas,
    slot,
    entries.map((observation, label) => ({ label, observation })),
  );
  const agreeing = slot.parts.flatMap((_, part) => (readings.every((read) => canBe(read, part)) ? [part] : []));
  if (agreeing.length === 0) return new Set();
  return new Set(
    readings.flatMap((read) =>
      read.labels
        .filter((_, i) => agreeing.every((part) => read.agree[i]?.[read.table.of[part] as number]?.[0] === false))
        .map((label) => entries[label] as Observation),
    ),
  );
};

/** Whether some one way of finding the part agrees with all that was read of the feature. */
const canBe = (read: FeatureReadings, part: number): boolean => {
  const entry = read.table.of[part] as number;
  return violatedBy(read, entry).length === 0 && excludersOf(read, entry).some((labels) => labels.length === 0);
};
