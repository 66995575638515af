import type { CompiledAtlas } from '../compile/compiled.ts';
import { isPlate } from '../compile/is-plate.ts';
import type { PartId, SlotId } from '../ids.ts';
import type { Plan } from './plan.ts';

/** A part is bought unless it is in stock; a nameplate came with its housing. */
export type Whence = 'bought' | 'stock' | 'not sold';

export const whenceOf = (atlas: CompiledAtlas, { cost }: Plan, slot: SlotId, part: PartId): Whence =>
  cost.parts.some((one) => one.part === part) ? 'bought' : isPlate(atlas, slot) ? 'not sold' : 'stock';
