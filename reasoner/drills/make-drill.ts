import type { CompiledAtlas } from '../compile/compiled.ts';
import { factsByEye } from './by-eye.ts';
import { descent } from './descent.ts';
import { drawFrom, seedOf } from './draw.ts';
import type { Drill, DrillLevel, Judgement, Kind, Made, Response, Topic } from './drill.ts';
import { grammar } from './grammar.ts';
import { looks } from './looks.ts';
import { name } from './name.ts';
import { nextCheck } from './next-check.ts';
import { swapped } from './swapped.ts';

/** So many throws of the dice are made before a topic is given up. */
const throws = 12;

/**
 * A drill on a topic. The same atlas, topic and seed give the same drill; null where none of several throws gives a question with
 * one answer, as between models no look tells apart.
 * @param seed a whole number, of which the lowest 32 bits count
 * @throws RangeError when the seed is none
 */
export const drillOf = (atlas: CompiledAtlas, topic: Topic, seed: number): Drill | null => {
  if (!Number.isInteger(seed)) throw new RangeError(`a seed is a whole number; found ${seed}`);
  for (let again = 0; again < throws; again += 1) {
    const made = make(atlas, topic, seedOf(topic.id, seed, again));
    if (made !== null && fair(made)) {
      const drill = {
        topic: topic.id,
        kind: topic.kind,
        level: topic.level,
        seed,
        edition: atlas.data.edition,
        ...asShown(atlas, topic.level, made),
      };
      if (oneAnswer(atlas, drill)) return drill;
    }
  }
  return null;
};

const make = (atlas: CompiledAtlas, topic: Topic, seed: number): Made | null => {
  const draw = drawFrom(seed);
  switch (topic.kind) {
    case 'looks':
      return looks.make(atlas, topic, draw);
    case 'swapped':
      return swapped.make(atlas, topic, draw);
    case 'name':
      return name.make(atlas, topic, draw);
    case 'check':
      return nextCheck.make(atlas, topic, draw);
    case 'descent':
      return descent.make(atlas, topic, draw);
    case 'grammar':
      return grammar.make(atlas, topic, draw);
  }
};

const asShown = (atlas: CompiledAtlas, level: DrillLevel, made: Made): Made =>
  level === 'measured' ? made : { ...made, shown: made.shown.map((each) => ({ ...each, facts: factsByEye(atlas, each.facts) })) };

/** Something to choose from, and nothing said twice. */
const fair = ({ choices }: Made): boolean =>
  choices.length >= 2 &&
  new Set(choices.map(({ id }) => id)).size === choices.length &&
  new Set(choices.map(({ text }) => text)).size === choices.length;

/** The reasoner itself is asked whether the drill has a right answer and a wrong one. Every right one it gives is accepted. */
const oneAnswer = (atlas: CompiledAtlas, drill: Drill): boolean => {
  const [first] = drill.choices;
  if (first === undefined) return false;
  if (drill.respond.kind === 'order') return true;
  const tried = drill.respond.kind === 'one' ? [first.id] : drill.choices.slice(0, drill.respond.count).map(({ id }) => id);
  const { accepted } = judgeDrill(atlas, drill, tried);
  return accepted.length >= 1 && accepted.length < drill.choices.length;
};

/** What is wrong with a response as one to this drill, in a sentence; null where it can be judged. */
export const faultIn = (drill: Drill, response: Response): string | null => {
  const known = new Set(drill.choices.map(({ id }) => id));
  const stranger = response.find((id) => !known.has(id));
  if (stranger !== undefined) return `“${stranger}” is none of the choices of this drill.`;
  if (new Set(response).size !== response.length) return 'A choice is named twice.';
  const wanted = drill.respond.kind === 'one' ? 1 : drill.respond.kind === 'several' ? drill.respond.count : drill.choices.length;
  return response.length === wanted ? null : `This drill asks for ${wanted}; found ${response.length}.`;
};

/**
 * Whether a response is right, and why, asked of the reasoner anew.
 * @throws when the response is none to this drill (`faultIn` says so beforehand)
 */
export const judgeDrill = (atlas: CompiledAtlas, drill: Drill, response: Response): Judgement => {
  const fault = faultIn(drill, response);
  if (fault !== null) throw new Error(fault);
  const judgement = kinds[drill.kind].judge(atlas, drill, response);
  if (drill.level === 'measured') return judgement;
  return {
    ...judgement,
    // What cannot be seen by eye is not drawn either.
    showings: judgement.showings.flatMap((showing) => {
      const sides = showing.sides.map((side) => ({ ...side, facts: factsByEye(atlas, side.facts) }));
      return sides.some(({ facts }) => facts[showing.feature] !== undefined) ? [{ ...showing, sides }] : [];
    }),
  };
};

const kinds: { readonly [K in Topic['kind']]: Pick<Kind<Extract<Topic, { kind: K }>>, 'judge'> } = {
  looks,
  swapped,
  name,
  check: nextCheck,
  descent,
  grammar,
};
