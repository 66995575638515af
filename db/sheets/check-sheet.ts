import type { Feature, FeatureId, MakerId, Observation, PartId, Sheet, SlotId } from '../../reasoner/index.ts';

/** What the atlas must be asked about a sheet. */
export interface KnownToAtlas {
  slot(id: SlotId): { readonly name: string } | undefined;
  feature(id: FeatureId): Feature | undefined;
  part(id: PartId): { readonly slot: SlotId } | undefined;
  maker(id: MakerId): unknown;
}

/** A place where a sheet and the atlas do not agree. `path` leads to it within the sheet. */
export interface SheetFault {
  readonly code: 'sheet-unknown' | 'sheet-invalid';
  readonly path: readonly PropertyKey[];
  readonly found: string;
  readonly expected: string;
}

/** Everything in a well-formed sheet that the atlas does not know, or knows otherwise. Observations that contradict each other are the reasoner's (O6). */
export const faultsOfSheet = (sheet: Sheet, atlas: KnownToAtlas): SheetFault[] => {
  const faults: SheetFault[] = [];
  const unknown = (path: readonly PropertyKey[], found: string, expected: string) =>
    faults.push({ code: 'sheet-unknown', path, found, expected });
  const invalid = (path: readonly PropertyKey[], found: string, expected: string) =>
    faults.push({ code: 'sheet-invalid', path, found, expected });

  if (sheet.claimedMaker !== null && atlas.maker(sheet.claimedMaker) === undefined)
    unknown(['claimedMaker'], sheet.claimedMaker, 'a maker of the atlas');

  const seen = new Set<string>();
  sheet.observations.forEach((observation, index) => {
    const at = (...path: PropertyKey[]) => ['observations', index, ...path];
    if (seen.has(observation.id)) invalid(at('id'), observation.id, 'an id no other observation of the sheet has');
    seen.add(observation.id);
    const slot = atlas.slot(observation.slot);
    const feature = atlas.feature(observation.feature);
    if (slot === undefined) unknown(at('slot'), observation.slot, 'a slot of the atlas');
    if (feature === undefined) unknown(at('feature'), observation.feature, 'a feature of the atlas');
    if (slot === undefined || feature === undefined) return;
    if (feature.slot !== observation.slot) unknown(at('feature'), observation.feature, `a feature of the ${slot.name}`);
    else valueFaults(observation, feature, at, invalid);
  });

  sheet.unseen?.forEach(({ slot, feature }, index) => {
    const known = atlas.feature(feature);
    if (atlas.slot(slot) === undefined) unknown(['unseen', index, 'slot'], slot, 'a slot of the atlas');
    if (known === undefined || known.slot !== slot) unknown(['unseen', index, 'feature'], feature, `a feature of the ${slot}`);
    if (sheet.unseen?.findIndex((other) => other.feature === feature) !== index)
      invalid(['unseen', index, 'feature'], feature, 'every unseen feature once');
  });

  sheet.absent.forEach((slot, index) => {
    if (atlas.slot(slot) === undefined) unknown(['absent', index], slot, 'a slot of the atlas');
    if (sheet.absent.indexOf(slot) !== index) invalid(['absent', index], slot, 'every absent slot once');
  });

  for (const [slot, part] of Object.entries(sheet.chosen) as [SlotId, PartId][]) {
    const known = atlas.part(part);
    if (sheet.kind === 'found') invalid(['chosen', slot], part, 'no chosen parts on the sheet of a found unit');
    else if (atlas.slot(slot) === undefined) unknown(['chosen', slot], slot, 'a slot of the atlas');
    else if (known === undefined) unknown(['chosen', slot], part, 'a part of the atlas');
    else if (known.slot !== slot) invalid(['chosen', slot], part, `a part of this slot (it is one of ${known.slot})`);
  }
  return faults;
};

type Report = (path: readonly PropertyKey[], found: string, expected: string) => void;

const valueFaults = (observation: Observation, feature: Feature, at: (...path: PropertyKey[]) => PropertyKey[], invalid: Report): void => {
  const { value, sure } = observation;
  if (value.kind !== feature.kind) {
    invalid(at('value', 'kind'), value.kind, `${feature.kind}, which the ${feature.name} is`);
    return;
  }
  if (value.kind === 'choice' && !feature.options?.some((option) => option.id === value.option)) {
    invalid(at('value', 'option'), value.option, feature.options?.map((option) => option.id).join(' or ') ?? 'an option');
  }
  if (value.kind === 'mark' && value.text !== null && value.text.trim() === '') {
    invalid(at('value', 'text'), 'an empty text', 'letters, or null where there are none');
  }
  if (value.kind === 'measure' && sure.kind === 'seen') invalid(at('sure', 'kind'), 'seen', 'measured or told, for a measure');
  if (value.kind !== 'measure' && sure.kind === 'measured') invalid(at('sure', 'kind'), 'measured', `seen or told, for a ${value.kind}`);
};
