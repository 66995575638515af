/**
 * Counting round a wheel: one or more kinds of thing (main blades, splitter blades) tapped as they pass, round after round.
 * One round can be a slip; a second that says the same is a count.
 */
export interface Counting {
  /** What has passed in this round, in order, by number of its kind. */
  readonly taps: readonly number[];
  /** Rounds that are done: how many of each kind. */
  readonly rounds: readonly (readonly number[])[];
  readonly kinds: number;
  /** Whether a round is under way. */
  readonly going: boolean;
}

export const countingOf = (kinds: number): Counting => ({ taps: [], rounds: [], kinds, going: true });

export const countedAgain = (counting: Counting): Counting => ({ ...counting, taps: [], going: true });

export const tapped = (counting: Counting, kind: number): Counting =>
  !counting.going || kind < 0 || kind >= counting.kinds ? counting : { ...counting, taps: [...counting.taps, kind] };

/** Takes the last tap of this round back. */
export const tapTakenBack = (counting: Counting): Counting => ({ ...counting, taps: counting.taps.slice(0, -1) });

export const roundBegunAgain = (counting: Counting): Counting => ({ ...counting, taps: [] });

/** How many of each kind in this round so far. */
export const tally = ({ taps, kinds }: Counting): readonly number[] =>
  Array.from({ length: kinds }, (_, kind) => taps.filter((one) => one === kind).length);

/** A round with nothing in it is none. */
export const roundDone = (counting: Counting): Counting =>
  counting.taps.length === 0 ? counting : { ...counting, taps: [], rounds: [...counting.rounds, tally(counting)], going: false };

/** Where the counting stands: `once` wants another round, `agreed` when the last two rounds say the same of every kind. */
export const standing = ({ rounds, going }: Counting): 'counting' | 'once' | 'agreed' | 'differs' => {
  if (going) return 'counting';
  if (rounds.length === 1) return 'once';
  const [before, last] = rounds.slice(-2) as [readonly number[], readonly number[]];
  return last.every((count, kind) => count === before[kind]) ? 'agreed' : 'differs';
};

/** What the rounds make of each kind: the count the last two agree on, else everything between the least and the most counted. */
export const counted = (counting: Counting): readonly { readonly from: number; readonly to: number }[] =>
  Array.from({ length: counting.kinds }, (_, kind) => {
    const counts = counting.rounds.map((round) => round[kind] as number);
    const [before, last] = counts.slice(-2);
    if (counts.length > 1 && before === last) return { from: last as number, to: last as number };
    return { from: Math.min(...counts), to: Math.max(...counts) };
  });

/** How it was counted, for the record: `counted round twice: 11, 11`. */
export const sayRounds = ({ rounds }: Counting, kind: number): string => {
  const counts = rounds.map((round) => round[kind]).join(', ');
  const times = ['once', 'twice'][rounds.length - 1] ?? `${rounds.length} times`;
  return `counted round ${times}${rounds.length === 1 ? '' : `: ${counts}`}`;
};
