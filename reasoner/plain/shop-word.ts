import { dayInWords } from './day-in-words.ts';

/** What the shop or the maker decided of a unit. It stands beside the verdict; nothing is reasoned from it. */
export interface ShopWord {
  readonly by: 'shop' | 'maker';
  /** Who decided it for the shop; of a maker's decision, who told the shop of it. */
  readonly person: string;
  /** The day it was decided on, `YYYY-MM-DD`. */
  readonly day: string;
  /** What was decided, as it was written. */
  readonly decision: string;
  /** On what ground: what was measured, whose letter of which day, which register. */
  readonly ground: string;
}

export const shopWordHeading = ({ by }: Pick<ShopWord, 'by'>): string =>
  by === 'shop' ? 'The shop’s own word' : 'The maker’s decision, as told to the shop';

/** Two sentences: who decided what on which day, and on what ground. What the maker decided is told, and is said to be. */
export const shopWordSentences = ({ by, person, day, decision, ground }: ShopWord): readonly [said: string, ground: string] => [
  `${by === 'shop' ? `The shop’s own word, by ${person.trim()} on` : `The maker’s decision as told to the shop by ${person.trim()}, decided on`} ${dayInWords(day)}: “${decision.trim()}”`,
  `The ground given for it: ${ended(ground.trim())}`,
];

/** Wherever the word stands by a verdict, so does this. */
export const shopWordApart =
  'It was decided beside the verdict. The verdict and the words for the ticket are the program’s, and are not changed by it.';

const ended = (text: string): string => (/[.!?…”]$/u.test(text) ? text : `${text}.`);
