/** Years from `from` to `to`, both included; `to` is null while it still goes on. */
export interface Years {
  readonly from: number;
  readonly to: number | null;
}

/** The year the pack was written: what is still made was made until then. */
export const thisYear = 2026;

/** The years two spans have in common, or null. */
export const overlap = (a: Years, b: Years): { from: number; to: number } | null => {
  const from = Math.max(a.from, b.from);
  const to = Math.min(a.to ?? thisYear, b.to ?? thisYear);
  return from <= to ? { from, to } : null;
};

/** The trade names in use during some years, each with the part of those years it was used in. */
export const tradeNamesDuring = (
  names: readonly (Years & { readonly name: string })[],
  years: Years,
): { name: string; from: number; to: number }[] =>
  names.flatMap(({ name, ...used }) => {
    const common = overlap(used, years);
    return common === null ? [] : [{ name, ...common }];
  });
