import type { Conflict, Name } from '../answer/verdict.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { SlotId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { conflictGraph, type GraphWords } from '../why/conflict-graph.ts';
import { seenPhrase } from '../words/phrases.ts';
import { graphPicture } from './graph-picture.ts';
import { line, type ReportBlock } from './report.ts';

/** The reasons drawn, where there are any: the slots they touch in a row from compressor to turbine, whatever was entered first. */
export const graphBlock = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  conflicts: readonly Conflict[],
  /** Those they are among, for what the picture rests on. */
  all: readonly Conflict[],
  of: 'claim' | 'unit',
  name: Name | null,
): ReportBlock[] => {
  if (conflicts.length === 0) return [];
  return [
    {
      kind: 'graph',
      picture: graphPicture(conflictGraph(graphWords(atlas), sheet, conflicts, name, 'touched'), conflicts),
      caption: line(
        `The ${conflicts.length === 1 ? 'reason' : `${conflicts.length} numbered reasons`} drawn: what was seen on the left, the parts in a row, the joints between them, what the name asks on the right. Numbers are those of the reasons; the first is drawn heavier.`,
        conflicts.map((conflict) => ({ kind: 'conflict', of, index: all.indexOf(conflict) })),
      ),
    },
  ];
};

const graphWords = (atlas: CompiledAtlas): GraphWords => {
  const slots = atlas.data.slots;
  return {
    slots,
    slotsOf: (id) =>
      atlas.joints.flatMap(({ data: joint, a, b }) => (joint.id === id ? [slots[a]?.id as SlotId, slots[b]?.id as SlotId] : [])),
    jointName: (id) => atlas.joints.find(({ data: joint }) => joint.id === id)?.data.name ?? id,
    entry: (observation) => seenPhrase(atlas.features.get(observation.feature) as Feature, observation),
  };
};
