import { asId, type ModelId, type NameId } from '../ids.ts';
import type { CompiledAtlas } from './compiled.ts';
import type { NameRule } from './name-rule.ts';

/** The weakest name that still says "this is that model": its naming slots alone decide it. */
export const serviceNameId = (model: ModelId): NameId => asId<NameId>(`service:${model}`);

const numbered = new WeakMap<CompiledAtlas, ReadonlyMap<NameId, NameRule>>();

/** The compiled name with this id. */
export const ruleNamed = (atlas: CompiledAtlas, id: NameId): NameRule | undefined => {
  let byId = numbered.get(atlas);
  if (byId === undefined) {
    byId = new Map(atlas.names.map((rule) => [rule.name.id, rule]));
    numbered.set(atlas, byId);
  }
  return byId.get(id);
};

/** All its parts, of whatever plate. */
export const allPartsNameId = (model: ModelId): NameId => asId<NameId>(`all-parts:${model}`);
