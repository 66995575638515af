/** `2026-0007`: the year it was opened in and its place in that year, with as many digits as it takes past four. */
export const numberText = ({ year, number }: { readonly year: number; readonly number: number }): string =>
  `${year}-${String(number).padStart(4, '0')}`;

/** The day an instant falls on by the clock of this computer, `YYYY-MM-DD`: a shop's day does not end at midnight in Greenwich. */
export const dayOf = (instant: Date): string =>
  [instant.getFullYear(), instant.getMonth() + 1, instant.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
