import type { Stage } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { StageId } from '../ids.ts';

/** All stages that must be reached for these, each once, what they need before them included. */
export const stagesFor = (atlas: CompiledAtlas, stages: Iterable<StageId>): ReadonlySet<StageId> => {
  const reached = new Set<StageId>();
  const open = [...stages];
  for (let stage = open.pop(); stage !== undefined; stage = open.pop()) {
    if (reached.has(stage)) continue;
    reached.add(stage);
    open.push(...stageAt(atlas, stage).after);
  }
  return reached;
};

/** Minutes of strip-down to reach these stages from a unit as received. */
export const stripDownMinutes = (atlas: CompiledAtlas, stages: Iterable<StageId>): number =>
  [...stagesFor(atlas, stages)].reduce((sum, stage) => sum + stageAt(atlas, stage).minutes, 0);

/** A stage by its id; those a feature or a slot names are in the atlas. */
const stageAt = (atlas: CompiledAtlas, id: StageId): Stage => atlas.stages.get(id) as Stage;
