/** Cases that come in with numbers under this counter's letter which it did not give. */
export interface GivenElsewhere {
  /** The first of their numbers, as it is written. */
  readonly first: string;
  readonly many: number;
}

/** What is said where such cases are taken in; `file` is what they come in. */
export const saySharedLetter = (file: string, { first, many }: GivenElsewhere): string => {
  const letter = first.slice(0, 1);
  const what =
    many === 1
      ? `the number ${first} in it begins with this counter’s letter, but was not given here`
      : `${many} numbers of cases in it, the first ${first}, begin with this counter’s letter, but were not given here`;
  return `${file}: ${what}. If it comes from another counter of this shop, both have the letter ${letter}, and one number may come to stand for two cases: give one of the counters another letter in the shop’s settings, under This counter.`;
};
