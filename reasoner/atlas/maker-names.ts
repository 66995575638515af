import { sameMark } from '../plain/letters.ts';
import type { Maker } from './atlas.ts';

/** A maker's name and every name it traded under. */
export const namesOfMaker = ({ name, tradeNames }: Pick<Maker, 'name' | 'tradeNames'>): readonly string[] => [
  name,
  ...tradeNames.map((each) => each.name),
];

/** Whether letters are one of a maker's names, as marks are compared. */
export const isNamed = (maker: Maker, letters: string): boolean => namesOfMaker(maker).some((name) => sameMark(name, letters));
