/**
 * The most that may come in, each looked at before anything is made of what came (R6). SPEC.md, _Limits_, says why each is what it is; a test holds the two together.
 * Whatever lies within them takes work that grows no faster than n·log n.
 */
export const limits = {
  /** Bytes of one call, over either transport. */
  callBytes: 16 * 1024 * 1024,
  /** Bytes of what carries a key, or nothing, to the host. */
  bareCallBytes: 4096,
  /** Values within values, in any text of JSON. */
  jsonDepth: 50,
  /** Characters of the text of a listing. */
  listingLetters: 20_000,
  /** Characters of a name a unit is offered under. */
  claimLetters: 300,
  /** Characters of the text of a sheet file. */
  sheetLetters: 4_000_000,
  /** Characters of a table of sheets. */
  tableLetters: 12_000_000,
  /** Rows of one unit in a table of sheets. */
  unitRows: 5_000,
} as const;
