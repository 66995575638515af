import type { PlateDisagreement } from '../answer/plate-reading.ts';
import type { Model } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { fullName } from '../compile/name-texts.ts';
import type { MakerId, ModelId, ObservationId, SlotId } from '../ids.ts';
import { sayEra } from '../plain/say-era.ts';
import { list } from '../plain/text.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { hasPhrase } from './has-phrase.ts';

/** O5: what of the plate does not agree with what, in one sentence. */
export const disagreementSentence = (atlas: CompiledAtlas, sheet: Sheet, of: PlateDisagreement): string => {
  const maker = (id: MakerId): string => atlas.makers.get(id)?.name ?? id;
  const slot = (id: SlotId): string => atlas.data.slots.find((one) => one.id === id)?.name ?? id;
  const seen = (id: ObservationId): Observation | undefined => sheet.observations.find((one) => one.id === id);
  const says = (id: ObservationId | undefined): string => {
    const observation = id === undefined ? undefined : seen(id);
    return observation === undefined ? '' : (atlas.features.get(observation.feature)?.says ?? '');
  };
  const letters = (id: ObservationId | undefined): string => {
    const observation = id === undefined ? undefined : seen(id);
    return observation?.value.kind === 'mark' ? `“${observation.value.text}”` : '';
  };
  const [first, second] = of.observations;
  switch (of.kind) {
    case 'not this maker’s number':
      return `The plate bears a trade name of ${maker(of.maker)} and the ${of.says} ${letters(of.observations.at(-1))}, and ${maker(of.maker)} does not make its ${of.says}s so${of.like === null ? '' : `; ${maker(of.like)} does`}: it was misread, or the plate is not what it says.`;
    case 'number not listed': {
      const whose = list(of.makers.map(maker), 'or');
      const how = of.patterned
        ? `is made as ${whose} makes them, and the atlas lists no such number`
        : `is on no list of the atlas, and how ${whose} makes its numbers is not known`;
      const left =
        of.models.length === 0
          ? 'no model the atlas lists can have such a plate'
          : of.models.length > 3
            ? 'which model’s plate it is nobody can tell by it'
            : `it can be a plate of ${models(atlas, of.models)}`;
      return `The plate’s number ${letters(first)} ${how}: ${left}.`;
    }
    case 'check digit':
      return `The ${says(first)} ${letters(first)} is made as ${maker(of.maker)} makes them but for its check digit: ${of.stamped} is stamped where the figures before it give ${of.wanted}. It was misread, or ${maker(of.maker)} did not stamp it.`;
    case 'trade name not in use':
      return `The trade name “${of.name}” was in use ${sayEra(of.used)}, and the plate’s ${says(second)} tells ${sayEra(of.made)}.`;
    case 'years disagree':
      return `The plate’s serial number tells ${sayEra(of.serial)} and its year of make is ${sayEra(of.year)}.`;
    case 'number of another slot': {
      const parts = of.parts.slice(0, 3).flatMap((id) => atlas.parts.get(id)?.name ?? []);
      return `The number ${letters(first)} on the plate is no plate’s: it is one for a ${slot(of.slot)}${parts.length === 0 ? '' : ` (${list(parts, 'or')})`}.`;
    }
    case 'superseded':
      return `The plate’s number ${letters(first)} was superseded${of.number === null ? '' : ` by “${of.number}”`} (${atlas.parts.get(of.by)?.name ?? of.by}).`;
    case 'not this bearing housing': {
      const phrases = of.observations.slice(1).flatMap((id) => {
        const observation = seen(id);
        const feature = observation === undefined ? undefined : atlas.features.get(observation.feature);
        return observation === undefined || feature === undefined ? [] : [hasPhrase(feature, observation)];
      });
      return `The plate’s number ${letters(first)} is of ${models(atlas, of.models)}, and this ${slot(of.slot)}, with ${list(phrases)}, is none of ${of.models.length === 1 ? 'its' : 'theirs'}: the plate does not belong where it is.`;
    }
    case 'not the claimed model':
      return `The plate’s number ${letters(first)} is of ${models(atlas, of.models)}, not of ${models(atlas, [of.claimed])}, which the unit is offered as.`;
    case 'out of its time': {
      const whose =
        of.of === 'number'
          ? `The plate’s number ${letters(first)} is of ${models(atlas, of.models)}`
          : `The unit is offered as ${models(atlas, of.models)}`;
      return `${whose}, built ${sayEra(of.built)}, and the plate’s ${says(of.of === 'number' ? second : first)} tells ${sayEra(of.made)}.`;
    }
  }
};

const models = (atlas: CompiledAtlas, ids: readonly ModelId[]): string => {
  const names = ids.slice(0, 3).flatMap((id) => {
    const model: Model | undefined = atlas.models.get(id);
    return model === undefined ? [] : [fullName(atlas, model)];
  });
  return ids.length > 3 ? `${names.join(', ')} or ${ids.length - 3} others` : list(names, 'or');
};
