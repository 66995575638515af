import type { SlotId } from '../ids.ts';
import type { CompiledAtlas } from './compiled.ts';

/** Whether the slot is that of the nameplate, which came with its housing: only the maker issues one, and nobody buys one (O5). */
export const isPlate = (atlas: CompiledAtlas, slot: SlotId): boolean => atlas.data.slots.find(({ id }) => id === slot)?.group === 'plate';
