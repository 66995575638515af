/** Letters a counter may have: one capital, without I and O, which are read as figures. */
export const counterLetters: readonly string[] = [...'ABCDEFGHJKLMNPQRSTUVWXYZ'];

/** The letter of a counter that was given none. */
export const firstCounterLetter = 'A';

/** Case numbers as they are written: `A-2026-0007`; without a letter those given before counters had one. */
export const caseNumberPattern = /^(?:[A-HJ-NP-Z]-)?\d{4}-\d{4,9}$/;
