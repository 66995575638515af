import type { SlotId } from '../ids.ts';
import type { CompiledAtlas } from './compiled.ts';

/** What the atlas calls a slot; its id where the atlas has none of that id. */
export const slotNameOf = (atlas: CompiledAtlas, id: string): string =>
  atlas.slots[atlas.slotNumber.get(id as SlotId) ?? -1]?.data.name ?? id;
