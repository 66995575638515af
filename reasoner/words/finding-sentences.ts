import type { Conflict, Finding } from '../answer/verdict.ts';
import type { Part } from '../atlas/atlas.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import { list } from '../plain/text.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { Truth } from '../truth.ts';
import type { PlateOnPattern } from '../unit/plate-on-pattern.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { feature } from './conflict-sentence.ts';
import { hasPhrase } from './has-phrase.ts';

const slotName = (unit: Unit, id: string): string => slotNameOf(unit.atlas, id);

/** O1: what became of something that was only told, where what was seen says. */
export const toldSentence = (unit: Unit, observation: Observation, truth: Exclude<Truth, 'not known'>): string => {
  const said = `Told that the ${slotName(unit, observation.slot)} has ${hasPhrase(feature(unit, observation.feature), observation)}`;
  return truth === 'holds' ? `${said}: what was seen says so too.` : `${said}: what was seen says otherwise.`;
};

/** O1: everything told of which nothing seen says either, slot by slot. */
export const unconfirmedSentence = (unit: Unit, told: readonly Observation[]): string => {
  const slots = unit.atlas.data.slots.flatMap(({ id, name }) => {
    const own = told.filter(({ slot }) => slot === id).map((observation) => hasPhrase(feature(unit, observation.feature), observation));
    return own.length === 0 ? [] : [`that the ${name} has ${list(own)}`];
  });
  return `Nothing seen so far confirms or denies what was told: ${slots.join('; ')}.`;
};

export const unlistedSentence = (slot: UnitSlot): string =>
  `No ${slot.of.data.name} in the atlas has everything that was seen on this one (${slot.of.parts.length} are listed): it is a part the atlas does not list, or an entry is wrong.`;

type MarkReading = Exclude<Extract<Finding, { kind: 'mark' }>['reading'], 'maker’s plate on a pattern part'>;

/** O4. The difference between non-genuine and counterfeit is common practice, no source: only a copy that bears the maker's name pretends to be it. */
export const markSentence = (
  unit: Unit,
  slot: UnitSlot,
  observation: Observation,
  parts: readonly Part[],
  reading: MarkReading,
): string => {
  const of = feature(unit, observation.feature);
  const bare = observation.value.kind === 'mark' && observation.value.text === null;
  const seen = bare ? `the missing ${of.name}` : hasPhrase(of, observation);
  const named = parts.slice(0, 3).map(({ name }) => `the ${name}`);
  const which = list(parts.length > 3 ? [...named, `one of ${parts.length - 3} others`] : named, 'or');
  switch (reading) {
    case 'maker’s name on a pattern part':
      return `But for ${seen} this ${slot.of.data.name} is ${which}, a pattern part the atlas knows only without a maker’s name. A pattern part that bears a maker’s name is counterfeit, not merely non-genuine; only the maker can settle whose it is.`;
    case 'no name where the maker casts one':
      return `But for ${seen} this ${slot.of.data.name} is ${which}, which the maker always marks.`;
    case 'other letters':
      return `But for ${seen} this ${slot.of.data.name} is ${which}.`;
  }
};

/** O4: the plate may have been moved, and only its maker can say; so neither word for a copy is used. */
export const rivetedSentence = (unit: Unit, { slot, makers }: PlateOnPattern): string => {
  const maker = list(
    makers.map((id) => unit.atlas.makers.get(id)?.name ?? id),
    'or',
  );
  return `A plate of ${maker} is fixed to a ${slotName(unit, slot)} that bears no maker’s name. It may have been moved there and is no proof.`;
};

/** O5 */
export const plateSentence = (unit: Unit, conflict: Conflict, seen: readonly Observation[]): string => {
  const plate = unit.atlas.slots.find(({ data: slot }) => slot.group === 'plate')?.data;
  const onPlate = seen.filter(({ slot }) => slot === plate?.id);
  const phrases = onPlate.map((observation) => hasPhrase(feature(unit, observation.feature), observation));
  if (onPlate.length === seen.length && conflict.slots.length === 1) {
    return phrases.length === 1
      ? `No plate the atlas knows has ${phrases[0]}: ${stamped(unit, onPlate[0] as Observation) ? '' : 'it has been taken off or altered since its maker fixed it, '}it is a plate the atlas does not list, or the entry is wrong.`
      : `The plate does not agree with itself: no plate the atlas knows has ${list(phrases)}.`;
  }
  return `The plate does not belong where it is: ${conflict.sentence.charAt(0).toLowerCase()}${conflict.sentence.slice(1)}`;
};

/** Letters and figures of a plate stay as they were stamped; what holds it on does not. */
const stamped = (unit: Unit, { value, feature: of }: Observation): boolean =>
  value.kind === 'mark' || unit.atlas.features.get(of)?.says !== undefined;
