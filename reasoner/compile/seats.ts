import type { Role } from '../atlas/atlas.ts';
import type { ModelId } from '../ids.ts';
import type { CompiledSlot, Ground } from './compiled.ts';
import { makerOf } from './name-texts.ts';

/** Where a part may sit, by role, for one slot of one model. */
export interface Seats {
  readonly names: ReadonlySet<number>;
  readonly any: ReadonlySet<number>;
  readonly naming: boolean;
  /** Whether the model's list there is not whole; it is not where it lists nothing for a core or housing slot (A7). */
  readonly open: boolean;
}

/** Which parts may sit where, for every model, by slot number: as listed (A3), and wherever a part they supersede, in any number of steps, is listed. */
export const rolesOf = (atlas: Ground): Map<ModelId, (ReadonlyMap<number, Role> | null)[]> => {
  const successors = new Map<string, number[]>();
  for (const slot of atlas.slots) {
    slot.parts.forEach((part, number) => {
      if (part.supersedes === undefined) return;
      const known = successors.get(part.supersedes);
      if (known) known.push(number);
      else successors.set(part.supersedes, [number]);
    });
  }
  const answer = new Map<ModelId, (ReadonlyMap<number, Role> | null)[]>();
  for (const model of atlas.data.models) {
    const roles: (Map<number, Role> | null)[] = atlas.slots.map(() => null);
    for (const { slot, part, role } of model.allowed) {
      const number = atlas.slotNumber.get(slot) as number;
      const own = roles[number] ?? new Map<number, Role>();
      roles[number] = own;
      const at = (atlas.slots[number] as CompiledSlot).partNumber.get(part);
      if (at === undefined) throw new Error(`model ${model.id} lists ${part} in ${slot}, where the atlas has no such part`);
      own.set(at, role);
    }
    roles.forEach((listed, number) => {
      const { parts } = atlas.slots[number] as CompiledSlot;
      for (const [part, role] of [...(listed ?? [])]) {
        const open = [part];
        for (let at = open.pop(); at !== undefined; at = open.pop()) {
          for (const next of successors.get((parts[at] as { id: string }).id) ?? []) {
            if (listed?.has(next)) continue;
            listed?.set(next, role);
            open.push(next);
          }
        }
      }
    });
    answer.set(model.id, roles);
  }
  return answer;
};

/** The same with what makes a name: a slot is naming when some part is listed there as *names* or *option*; the nameplate only under the maker's plate rule (N3). */
export const seatsOf = (atlas: Ground): Map<ModelId, (Seats | null)[]> => {
  const roles = rolesOf(atlas);
  const shared = atlas.slots.map(sharedSets);
  return new Map(
    atlas.data.models.map((model) => {
      const maker = makerOf(atlas, model);
      const openEnded = new Set(model.openEnded);
      const plateRule = maker !== null && (atlas.makers.get(maker)?.plateRule ?? false);
      const seats = (roles.get(model.id) as readonly (ReadonlyMap<number, Role> | null)[]).map((listed, number): Seats | null => {
        const { data: slot } = atlas.slots[number] as CompiledSlot;
        if (slot.group === 'plate' && (listed === null || !plateRule)) return null;
        const [names, any]: [number[], number[]] = [[], []];
        let naming = false;
        for (const [part, role] of listed ?? []) {
          any.push(part);
          if (role === 'names') names.push(part);
          if (role !== 'service') naming = true;
        }
        const share = shared[number] as (parts: readonly number[]) => ReadonlySet<number>;
        return {
          names: share(names),
          any: share(any),
          naming,
          open: listed === null || openEnded.has(slot.id),
        };
      });
      return [model.id, seats];
    }),
  );
};

/** One set for the same parts: what a unit has of it is then looked at once for every name that demands it. */
const sharedSets = (): ((parts: readonly number[]) => ReadonlySet<number>) => {
  const made = new Map<string, ReadonlySet<number>>();
  return (parts) => {
    const key = parts.join();
    let set = made.get(key);
    if (set === undefined) {
      set = new Set(parts);
      made.set(key, set);
    }
    return set;
  };
};
