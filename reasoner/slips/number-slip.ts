import type { CompiledAtlas } from '../compile/compiled.ts';
import { asId, type FeatureId, type ObservationId } from '../ids.ts';
import { readPlate } from '../plate/read-plate.ts';
import type { Seen, Sheet, Sure } from '../sheet/sheet.ts';
import type { Slip } from '../sheet/slip.ts';
import { numberSlipSentence } from '../words/slip-sentences.ts';

/**
 * Whether a number stamped on the plate may have been misread (O5, O7): its check digit is wrong, or the maker the plate names makes no such number.
 * It is asked about where somebody can be asked, and refused nowhere: a plate may well say so.
 */
export const numberSlipOf = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  entry: { readonly feature: FeatureId; readonly value: Seen; readonly sure: Sure },
): Slip => {
  const feature = atlas.features.get(entry.feature);
  if (feature === undefined || entry.value.kind !== 'mark' || entry.value.text === null) return { kind: 'plausible' };
  if (feature.says !== 'part number' && feature.says !== 'serial number') return { kind: 'plausible' };
  const read = readPlate(atlas, { ...sheet, observations: [...sheet.observations, { ...entry, id: asked, slot: feature.slot }] });
  for (const found of read.disagreements) {
    if (!found.observations.includes(asked)) continue;
    if (found.kind === 'check digit' || found.kind === 'not this maker’s number')
      return {
        kind: 'implausible',
        sentence: numberSlipSentence(entry.value.text, feature.says, found, atlas.makers.get(found.maker)?.name ?? found.maker),
        likely: [],
      };
  }
  return { kind: 'plausible' };
};

/** The id of the entry while it is not yet on the sheet; no sheet has one with a space in it. */
const asked = asId<ObservationId>('asked about');
