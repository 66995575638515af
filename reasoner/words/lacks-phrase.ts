import type { SlotId } from '../ids.ts';
import { list } from '../plain/text.ts';
import type { Unit } from '../unit/unit.ts';

/** What the atlas itself lacks that would settle these slots of a name (N2): an open-ended list (A7), the number on the plate (O5). Clauses without a full stop. */
export const lacksPhrases = (unit: Unit, lacks: readonly SlotId[]): string[] => {
  const slots = unit.slots.filter(({ of }) => lacks.includes(of.data.id));
  const lists = slots.filter(({ unlisted }) => unlisted === null).map(({ of }) => of.data.name);
  const plates = slots.filter(({ unlisted }) => unlisted !== null).map(({ of }) => of.data.name);
  return [
    ...(lists.length === 0 ? [] : [`the atlas does not say which ${list(lists)} it may hold`]),
    ...plates.map((name) => `the atlas lists no ${name} with this one’s number`),
  ];
};
