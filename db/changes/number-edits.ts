import type { Atlas } from '../../reasoner/index.ts';
import { sameMark } from '../../reasoner/plain/letters.ts';
import type { Edit } from '../edits/seen.ts';

/**
 * The edits that write one part number another way wherever the atlas has it: on parts, each of which has it once then, and as the letters of a mark that says a
 * part number. Also where two numbers turn out to be one, and parts have the second already.
 * @param from as it is written in the atlas, or with other signs between its letters and figures
 */
export const numberEdits = (atlas: Atlas, from: string, to: string): readonly Edit[] => {
  const said = new Set(atlas.features.filter(({ says }) => says === 'part number').map(({ id }) => id));
  const written = (numbers: readonly string[]): readonly string[] => {
    const next = numbers.map((number) => (sameMark(number, from) ? to : number));
    const once = next.filter((number, at) => next.indexOf(number) === at);
    return once.length === numbers.length && once.every((number, at) => number === numbers[at]) ? numbers : once;
  };
  return atlas.parts.flatMap((part): readonly Edit[] => {
    const numbers = written(part.numbers);
    const facts = Object.entries(part.facts).map(([feature, fact]) => {
      if (fact.kind !== 'mark' || !said.has(feature as never)) return [feature, fact] as const;
      const anyOf = written(fact.anyOf);
      return [feature, anyOf === fact.anyOf ? fact : { ...fact, anyOf }] as const;
    });
    const same = numbers === part.numbers && facts.every(([feature, fact]) => part.facts[feature as never] === fact);
    return same ? [] : [{ list: 'parts', put: { ...part, numbers, facts: Object.fromEntries(facts) } }];
  });
};
