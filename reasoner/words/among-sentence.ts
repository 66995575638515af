import type { Among } from '../answer/odds.ts';

/** @param names what the entries do not rule out and is possible @param models of the atlas */
export const amongSentence = (kind: Among['kind'], names: number, models: number): string => {
  switch (kind) {
    case 'nothing entered':
      return `Nothing has been entered yet, and so no name is likelier than another: ${models === 1 ? 'the one model' : `each of the ${models} models`} of the atlas may be it, or none.`;
    case 'no name can stand':
      return 'No name can be likely yet: the atlas lists the whole core of no model.';
    case 'no name is left':
      return 'The entries rule out every name of the atlas: what is left is a list of parts.';
    case 'names':
      return names === 1
        ? 'The entries leave one name: how likely it is, and how likely it is that the unit has none.'
        : `The entries leave ${names} names: how likely each is, and how likely it is that the unit has none.`;
  }
};
