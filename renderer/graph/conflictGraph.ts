import type { Conflict, Name, Sheet } from '../../reasoner/index.ts';
import { type ConflictGraph, conflictGraph as graphOf } from '../../reasoner/why/conflict-graph.ts';
import type { Words } from '../bridge/words.ts';
import { sayValue } from '../values/sayings.ts';

export { type ConflictGraph, type GraphNode, graphColumns, nodeOf, nodesOf } from '../../reasoner/why/conflict-graph.ts';

/** The graph of these conflicts in the window's words: all slots, so that it always looks the same, and every member of any conflict. */
export const conflictGraph = (words: Words, sheet: Sheet, conflicts: readonly Conflict[], name: Name | null): ConflictGraph =>
  graphOf(
    {
      slots: words.slots,
      slotsOf: words.slotsOf,
      jointName: words.jointName,
      entry: ({ feature, value }) => `${words.featureName(feature)} ${sayValue(words.feature(feature), value, words.unit)}`,
    },
    sheet,
    conflicts,
    name,
  );
