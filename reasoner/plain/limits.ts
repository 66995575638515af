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
  /** Bytes of a spreadsheet, packed, and of all that is in it. */
  spreadsheetBytes: 16 * 1024 * 1024,
  spreadsheetUnpackedBytes: 128 * 1024 * 1024,
  /** Rows of a spreadsheet that is brought in, its columns, and the characters of one cell. */
  spreadsheetRows: 20_000,
  spreadsheetColumns: 300,
  cellLetters: 4_000,
  /** Bytes of the one file that holds a whole case, and of all that is in it. */
  parcelBytes: 512 * 1024 * 1024,
  /** Bytes of what such a file says of the case, beside its photographs. */
  parcelCaseBytes: 64 * 1024 * 1024,
  /** Bytes of it that cross in one call: as base64 in JSON they stay below what a call may carry. */
  partBytes: 8 * 1024 * 1024,
  /** Files within it. */
  parcelFiles: 210,
  /** Bytes of a pack that is brought in through the window, as a ZIP or a folder, and of all its files together. */
  packBytes: 512 * 1024 * 1024,
  /** Files of such a pack: its lists and tables, and a sheet each. */
  packFiles: 10_000,
  /** Rows of one unit in a table of sheets. */
  unitRows: 5_000,
  /** Bytes of a photograph: what a phone's camera makes at its best, with room to spare. */
  photoBytes: 10 * 1024 * 1024,
  /** Pixels of a photograph: it is drawn whole in the window, at four bytes each. */
  photoPixels: 64_000_000,
  /** Photographs of one case, which are shown together. */
  casePhotos: 100,
  /** Bytes of a photograph's small picture: far above what one takes, and far below what would make a list of them slow. */
  thumbnailBytes: 96 * 1024,
  /** Pixels along the longer side of a small picture. */
  thumbnailSide: 512,
  /** Pixels of all photographs of one report that have to be taken apart before a PDF can hold them. */
  printedPixels: 8_000_000,
  /** Bytes of the picture at the head of what is printed, which goes with every report. */
  logoBytes: 512 * 1024,
  /** Pixels along the longer side of it. */
  logoSide: 2000,
  /** Bytes of a paper kept beside a source or a part: it crosses in one call. */
  documentBytes: 10 * 1024 * 1024,
  /** Papers beside one source or part, which are listed together. */
  documentsOfOne: 50,
  /** Bytes of all papers and of the letterhead's picture: mending a damaged atlas holds them in memory. */
  documentsBytes: 256 * 1024 * 1024,
  /** Lines of the shop's stock list that are not taken off, and so of a table of them: far above a shop's shelves, and still a list in memory. */
  stockLines: 20_000,
  /** Bytes of all photographs of one report that are printed whole. */
  printedBytes: 64 * 1024 * 1024,
} as const;
