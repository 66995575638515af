import type { ModelId } from '../../reasoner/index.ts';
import type { NodeRef } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import { type Sitting, sittingsOfModels } from './may-sit.ts';
import { refOf } from './node-refs.ts';

/**
 * Models one and the same core may be right for: in every core slot that names either of them, some part may sit in both.
 * A model that no core slot names shares nothing.
 */
export const modelsSharingCore = async (reader: Reader, model: ModelId): Promise<NodeRef[]> => {
  const core = new Set((await reader.all<{ id: string }>(`select id from slots where part_group = 'core'`)).map(({ id }) => id));
  const own = slotsOf(await sittingsOfModels(reader, [model]), core);
  const naming = [...own.entries()].filter(([, slot]) => slot.names);
  if (naming.length === 0) return [];
  // Only models that meet this one in its first naming slot can share the core.
  const [first] = naming[0] === undefined ? [] : [naming[0][1]];
  const near = await reader.all<{ id: ModelId }>(
    `with recursive older(part) as (
       select n from parts where id in (select value from json_each(?))
       union select p.supersedes from older o join parts p on p.n = o.part where p.supersedes is not null)
     select distinct m.id from older o join sits s on s.part = o.part join models m on m.n = s.model where m.id <> ?`,
    [JSON.stringify([...(first?.parts ?? [])]), model],
  );
  const sittings = groupBy(
    await sittingsOfModels(
      reader,
      near.map(({ id }) => id),
    ),
    (sitting) => sitting.model,
  );
  return [...sittings.values()]
    .filter((theirs) => {
      const other = slotsOf(theirs, core);
      const slots = new Set([...own, ...other].filter(([, slot]) => slot.names).map(([id]) => id));
      return [...slots].every((id) => meet(own.get(id)?.parts, other.get(id)?.parts));
    })
    .flatMap(([one]) => (one === undefined ? [] : [refOf('model', { id: one.model, name: one.modelName })]));
};

interface CoreSlot {
  readonly parts: Set<string>;
  /** Some part here is listed as naming the model, or as an option of it. */
  names: boolean;
}

const slotsOf = (sittings: readonly Sitting[], core: ReadonlySet<string>): Map<string, CoreSlot> => {
  const slots = new Map<string, CoreSlot>();
  for (const { slot, part, role } of sittings) {
    if (!core.has(slot)) continue;
    const at = slots.get(slot) ?? { parts: new Set<string>(), names: false };
    at.parts.add(part);
    if (role !== 'service') at.names = true;
    slots.set(slot, at);
  }
  return slots;
};

const meet = (a: ReadonlySet<string> | undefined, b: ReadonlySet<string> | undefined): boolean =>
  a !== undefined && b !== undefined && [...a].some((part) => b.has(part));
