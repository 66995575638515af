import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { markKey } from '../plain/letters.ts';
import { size } from '../plain/sizes.ts';
import { list } from '../plain/text.ts';
import { optionName } from '../words/phrases.ts';
import type { Answer } from './outcomes.ts';
import type { KeyAsked } from './problem-of.ts';

/** An answer as it stands on a key: `10 blades`, `46.2 to 51.3 mm`, `hexagon or collar`, `“Pe small”`. */
export const sayAnswer = (atlas: CompiledAtlas, feature: Feature, answer: Answer): string => {
  if (answer.kind === 'range') return feature.kind === 'count' ? sayCounts(feature, answer) : saySizes(feature, answer);
  switch (feature.kind) {
    case 'mark':
      return list(
        answer.values.map((value) => (value === '' ? 'no letters' : `“${asWritten(atlas, feature, value)}”`)),
        'or',
      );
    case 'choice':
      return list(
        answer.values.map((value) => optionName(feature, value)),
        'or',
      );
    default:
      return list(answer.values, 'or');
  }
};

/** How the letters stand on the first part that bears them: case and spaces are not compared, but people look for them. */
const asWritten = (atlas: CompiledAtlas, feature: Feature, value: string): string => {
  for (const { slot, facts } of atlas.data.parts) {
    const fact = slot === feature.slot ? facts[feature.id] : undefined;
    const text = fact?.kind === 'mark' ? fact.anyOf.find((one) => markKey(one) === value) : undefined;
    if (text !== undefined) return text;
  }
  return value;
};

type Range = Extract<Answer, { kind: 'range' }>;

const sayCounts = (feature: Feature, { low, high }: Range): string => {
  const [first, last] = [Math.ceil(low), Math.floor(high)];
  const unit = feature.unit === undefined || feature.unit === 'year' ? '' : ` ${feature.unit}`;
  return first >= last
    ? `${first}${first === 1 && unit.endsWith('s') ? unit.slice(0, -1) : unit}`
    : `${first} ${last === first + 1 ? 'or' : 'to'} ${last}${unit}`;
};

/** Cuts, not limits: what is read lies on one side of a cut or the other. */
const saySizes = (feature: Feature, { from, to }: Range): string => {
  const unit = feature.unit === 'deg' ? '°' : ' mm';
  if (from === null) return to === null ? 'any' : `under ${size(to)}${unit}`;
  return to === null ? `over ${size(from)}${unit}` : `${size(from)} to ${size(to)}${unit}`;
};

interface Made {
  readonly asked: KeyAsked;
  readonly labels: number;
  readonly ends: number;
  readonly expected: number;
  readonly longest: number;
  readonly optimal: boolean;
  readonly atLeast: number;
}

const minutes = (value: number): string => `${Math.round(value * 10) / 10} min`;

/** What no end of a key says, whatever it names. */
export const cautionOfKeys =
  'An end says which listed model looks like this, if its parts are its own. Housings and plates are changed in minutes, and a copy can look the same: it is no proof, and no words for a ticket.';

/** How good the key is and what it rests on. */
export const keySentences = ({ asked, labels, ends, expected, longest, optimal, atLeast }: Made): readonly string[] => {
  const what = asked.level === 'models' ? 'models' : 'families';
  const quality = optimal
    ? 'No key by these rules is quicker: every one was tried.'
    : atLeast > 0
      ? `None can average less than ${minutes(atLeast)}; whether a key between the two exists is not known.`
      : 'Whether a quicker one exists is not known.';
  return [
    `${labels} ${what}. On average ${minutes(expected)} to an end, strip-down counted once on the way; at most ${minutes(longest)}. ${quality}`,
    asked.odds === undefined ? 'Every model is taken as equally likely.' : 'Models are taken as likely as was asked for.',
    'Every part a model lists for a slot is taken as equally likely, and where the atlas does not know a look, so is every answer. A part stays possible while each answer agrees with it, worn or read with the instrument named.',
    ...(ends > 0 ? [`Where several ${what} stand at one end, no check left here tells them apart.`] : []),
    'If no answer fits, or a part was exchanged, the unit is none of these or not as built: look at the parts one by one.',
  ];
};
