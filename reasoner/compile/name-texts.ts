import type { Family, Model } from '../atlas/atlas.ts';
import type { MakerId } from '../ids.ts';
import type { CompiledAtlas, CompiledSlot, Ground } from './compiled.ts';

/** Whose the model is; null for a pattern of nobody's. */
export const makerOf = (atlas: Ground, model: Model): MakerId | null => (atlas.families.get(model.family) as Family).maker;

/** The maker's name and the model's. */
export const fullName = (atlas: Ground, model: Model): string => {
  const maker = makerOf(atlas, model);
  return maker === null ? model.name : `${atlas.makers.get(maker)?.name} ${model.name}`;
};

/** The same of a family. */
export const familyName = (atlas: Ground, family: Family): string =>
  family.maker === null ? family.name : `${atlas.makers.get(family.maker)?.name} ${family.name}`;

/** `Tarnwick Rowan IV-18, Rowan IV-22 or Rowan IV-26`; a long list is cut and says how many more. */
export const fullNames = (atlas: Ground, models: readonly Model[]): string => {
  const [first, ...rest] = models as [Model, ...Model[]];
  if (rest.length === 0) return fullName(atlas, first);
  const names = [fullName(atlas, first), ...rest.map((model) => model.name)];
  const shown = names.length > 4 ? [...names.slice(0, 3), `${names.length - 3} more`] : names;
  return `${shown.slice(0, -1).join(', ')} or ${shown.at(-1)}`;
};

export const housingSlots = (atlas: Pick<CompiledAtlas, 'slots'>): readonly CompiledSlot[] =>
  atlas.slots.filter(({ data: slot }) => slot.group === 'housing');
