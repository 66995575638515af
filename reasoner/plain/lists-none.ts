/** Whether the atlas lists no part at all for a slot of a verdict: nothing is concluded there, and nothing is in doubt. A plate whose number is not listed is something. */
export const listsNone = ({
  listed,
  numberNotListed,
}: {
  readonly listed: number;
  readonly numberNotListed: readonly unknown[] | null;
}): boolean => listed === 0 && numberNotListed === null;
