import { isNamed } from '../atlas/maker-names.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { MakerId } from '../ids.ts';
import { sameMark } from '../plain/letters.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { UnitSlot } from './unit.ts';

/** Whether the letters seen are a maker's (O4). */
export const isMakersMark = (atlas: CompiledAtlas, slot: UnitSlot, observation: Observation): boolean =>
  makerOfMark(atlas, slot, observation) !== null;

/** The maker whose name, trade name or part the letters are of; null for none the atlas knows, or no letters (O4). */
export const makerOfMark = (atlas: CompiledAtlas, slot: UnitSlot, observation: Observation): MakerId | null => {
  const text = observation.value.kind === 'mark' ? observation.value.text : null;
  if (text === null) return null;
  for (const maker of atlas.data.makers) {
    if (isNamed(maker, text)) return maker.id;
  }
  const bearer = slot.of.parts.find((part) => {
    const fact = part.facts[observation.feature];
    return part.maker !== null && fact?.kind === 'mark' && fact.anyOf.some((letters) => sameMark(letters, text));
  });
  return bearer?.maker ?? null;
};
