import type { CompiledAtlas } from '../compile/compiled.ts';
import type { InHand } from '../fits/judge-joint.ts';
import type { Known } from '../fits/known.ts';
import type { FeatureId, PartId, SlotId } from '../ids.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { type Agreement, agreementWith } from './agreement.ts';

/**
 * What was seen and measured on the parts in hand, which takes the place of the catalogue's limits. What is told is no size. Of several
 * readings of one size the one measured best stands.
 */
export const inHandOf = (sheet: Sheet): InHand => {
  const best = new Map<FeatureId, { readonly known: Known; readonly u: number }>();
  for (const { slot, feature, value, sure } of sheet.observations) {
    if (sheet.chosen[slot] === undefined || sure.kind === 'told') continue;
    const u = sure.kind === 'measured' ? sure.u : 0;
    const before = best.get(feature);
    if (before === undefined || u < before.u) best.set(feature, { known: knownFrom(value, u), u });
  }
  return new Map([...best].map(([feature, { known }]) => [feature, known]));
};

const knownFrom = (value: Observation['value'], u: number): Known => {
  switch (value.kind) {
    case 'measure':
      return { kind: 'measured', value: value.value, u };
    case 'count':
    case 'presence':
      return value;
    case 'choice':
      return { kind: 'choice', anyOf: [value.option] };
    case 'mark':
      return { kind: 'mark', anyOf: value.text === null ? [] : [value.text], blank: value.text === null };
  }
};

/** Observations of chosen parts, not told, that no example of that part would show, good, worn or machined: the part in hand is another. */
export const disagreementsIn = (atlas: CompiledAtlas, sheet: Sheet): readonly Observation[] =>
  sheet.observations.filter((observation) => inHandAgreement(atlas, sheet, observation) === null);

/** Those by which a chosen part has been machined already, whatever the build does to it (O2). */
export const workedInHand = (atlas: CompiledAtlas, sheet: Sheet): readonly Observation[] =>
  sheet.observations.filter((observation) => (inHandAgreement(atlas, sheet, observation)?.machined.length ?? 0) > 0);

/** Undefined where nothing was chosen, or it was only told. */
const inHandAgreement = (atlas: CompiledAtlas, sheet: Sheet, observation: Observation): Agreement | undefined => {
  const slot = atlas.slots[atlas.slotNumber.get(observation.slot) ?? -1];
  const part = slot?.partNumber.get(sheet.chosen[observation.slot] as PartId);
  const feature = atlas.features.get(observation.feature);
  if (slot === undefined || part === undefined || feature === undefined || observation.sure.kind === 'told') return undefined;
  return agreementWith(slot, part, feature, observation);
};

export const partChosen = (atlas: CompiledAtlas, sheet: Sheet, slot: SlotId) => {
  const id = sheet.chosen[slot];
  return id === undefined ? undefined : atlas.parts.get(id);
};
