/** A span of years in words, an end null where it is open: `1974`, `1974 to 1992`, `since 2009`, `until 1974`, `at some time`. */
export const sayEra = ({ from, to }: { readonly from: number | null; readonly to: number | null }): string => {
  if (from === null) return to === null ? 'at some time' : `until ${to}`;
  if (to === null) return `since ${from}`;
  return from === to ? String(from) : `${from} to ${to}`;
};
