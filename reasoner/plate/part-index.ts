import type { Model, Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { PartId } from '../ids.ts';
import { bare } from '../plain/letters.ts';

/** What is asked of parts by number; made for an atlas when first asked for. */
interface PartIndex {
  readonly byNumber: ReadonlyMap<string, readonly Part[]>;
  readonly successors: ReadonlyMap<PartId, readonly Part[]>;
  readonly models: ReadonlyMap<PartId, readonly Model[]>;
}

const kept = new WeakMap<CompiledAtlas, PartIndex>();

const indexOf = (atlas: CompiledAtlas): PartIndex => {
  const made = kept.get(atlas);
  if (made !== undefined) return made;
  const byNumber = new Map<string, Part[]>();
  const successors = new Map<PartId, Part[]>();
  const models = new Map<PartId, Model[]>();
  const add = <K, V>(map: Map<K, V[]>, key: K, value: V) => {
    const others = map.get(key);
    if (others === undefined) map.set(key, [value]);
    else others.push(value);
  };
  for (const part of atlas.data.parts) {
    for (const number of new Set(part.numbers.map(bare))) add(byNumber, number, part);
    if (part.supersedes !== undefined) add(successors, part.supersedes, part);
  }
  for (const model of atlas.data.models) for (const { part } of model.allowed) add(models, part, model);
  const index = { byNumber, successors, models };
  kept.set(atlas, index);
  return index;
};

/** Parts by a number, however it is spaced. */
export const partsNumbered = (atlas: CompiledAtlas, number: string): readonly Part[] => indexOf(atlas).byNumber.get(bare(number)) ?? [];

/** Parts that took this one's place directly. */
export const successorsOf = (atlas: CompiledAtlas, part: PartId): readonly Part[] => indexOf(atlas).successors.get(part) ?? [];

/** The last of those that took a part's place, one after another; the part itself where none did. */
export const lastSuccessorOf = (atlas: CompiledAtlas, part: Part): Part => {
  const seen = new Set<PartId>();
  let last = part;
  for (let next: Part | undefined = part; next !== undefined && !seen.has(next.id); next = successorsOf(atlas, next.id)[0]) {
    seen.add(next.id);
    last = next;
  }
  return last;
};

/** Models in which a part may sit: those that list it, and those that list what it supersedes, in any number of steps. */
export const modelsOf = (atlas: CompiledAtlas, part: Part): readonly Model[] => {
  const found = new Set<Model>();
  for (
    let now: Part | undefined = part;
    now !== undefined;
    now = now.supersedes === undefined ? undefined : atlas.parts.get(now.supersedes)
  ) {
    for (const model of indexOf(atlas).models.get(now.id) ?? []) found.add(model);
  }
  return [...found];
};
