import type { HousingOrigin } from '../answer/verdict.ts';
import { asId, type FamilyId, type ModelId, type NameId, type SlotId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import type { CompiledAtlas } from './compiled.ts';
import type { NameRule } from './name-rule.ts';

/** The weakest name that still says "this is that model": its naming slots alone decide it. */
export const serviceNameId = (model: ModelId): NameId => asId<NameId>(`service:${model}`);

/** The names that say "this is that model", the fullest first. */
export const namesOfModel = (model: ModelId): readonly NameId[] => [
  asId<NameId>(`model:${model}`),
  asId<NameId>(`options:${model}`),
  serviceNameId(model),
];

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

/** The parts of a family that are of no one model of it. */
export const familyPartsNameId = (family: FamilyId): NameId => asId<NameId>(`family-parts:${family}`);

/** The compiled name of parts of a family, of no one model, with this id; and what must be ruled out before it is said. */
export const familyPartsNamed = ({ familyParts }: CompiledAtlas, id: NameId): CompiledAtlas['familyParts'][number] | undefined =>
  familyPartsById(familyParts).get(id);

const familyPartsById = keptFor((all: CompiledAtlas['familyParts']) => new Map(all.map((each) => [each.rule.name.id, each])));

export const isFamilyPartsNameId = (id: NameId): boolean => id.startsWith('family-parts:');

/** What a name formed of a core says of its housings, as its id spells it. */
export interface FormedName {
  readonly core: NameId;
  /** Of each housing slot: `own`, `unidentified`, or the family it is of. */
  readonly housings: ReadonlyMap<SlotId, 'own' | 'unidentified' | FamilyId>;
}

/** The id of a name formed of a core and housings; `ownOf` tells apart names of one core whose own housings are of different models. */
export const formedNameId = (
  core: NameId,
  ownOf: ModelId | null,
  housings: readonly { readonly slot: SlotId; readonly origin: HousingOrigin }[],
): NameId =>
  asId<NameId>(
    [core, ...(ownOf === null ? [] : [`own=${ownOf}`]), ...housings.map(({ slot, origin }) => `${slot}=${originId(origin)}`)].join('/'),
  );

const originId = (origin: HousingOrigin): string =>
  origin.kind === 'family' || origin.kind === 'own family' ? origin.family : origin.kind;

/** What `formedNameId` wrote. The id of a name that was not formed reads as a core without housings. */
export const readFormedNameId = (id: NameId): FormedName => {
  const [core, ...pairs] = id.split('/') as [NameId, ...string[]];
  const said = pairs.map((pair): [SlotId, FamilyId] => [
    asId<SlotId>(pair.slice(0, pair.indexOf('='))),
    asId<FamilyId>(pair.slice(pair.indexOf('=') + 1)),
  ]);
  return { core, housings: new Map(said) };
};
