/**
 * The edition of what `judgeJoint` says. Fits are kept with an atlas; kept by another edition they are judged anew. Give it another number
 * whenever some pair of parts gets another verdict, numbers or findings than before: a test holds specimens of every rule to it.
 */
export const fitsEdition = '2026-11-28';
