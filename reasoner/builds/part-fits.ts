import type { Part } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { WorkedFit } from '../fits/work/work.ts';
import type { JointId, PartId } from '../ids.ts';
import { between, plannerFor } from './work-sets.ts';

export interface PartFit {
  readonly joint: JointId;
  readonly other: Part;
  /** With what the shop can do. */
  readonly worked: WorkedFit;
}

/**
 * A part against every part across each of its joints, with the shop's operations (F2).
 * @throws when the atlas has no such part
 */
export const partFits = (atlas: CompiledAtlas, id: PartId): PartFit[] => {
  const part = atlas.parts.get(id);
  if (part === undefined) throw new Error(`the atlas has no part ${id}`);
  const number = atlas.slotNumber.get(part.slot);
  const plan = plannerFor(atlas.data.operations ?? [], 3);
  return atlas.joints.flatMap((joint) => {
    if (joint.a !== number && joint.b !== number) return [];
    const across = atlas.slots[joint.a === number ? joint.b : joint.a] as CompiledSlot;
    return across.parts.flatMap((other): PartFit[] => {
      const built = between(atlas, joint, (slot) => (slot === part.slot ? part : slot === other.slot ? other : undefined));
      return built === null ? [] : [{ joint: joint.data.id, other, worked: plan(built, new Map()) }];
    });
  });
};
