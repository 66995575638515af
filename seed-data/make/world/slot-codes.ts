/** The slots by their codes, from the codes by their slots. */
export const slotCodes = (of: Readonly<Record<string, string | number>>): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(of).map(([slot, code]) => [String(code), slot]));
