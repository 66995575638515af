import type { LearningPutBack } from './learning-put-back.ts';

/** What mending found, put back, and could not. Counts are of what stands in the new atlas. */
export interface MendReport {
  /** `finished`: the mend before was broken off once its new atlas was whole, and was put in place now. */
  readonly state: 'sound' | 'mended' | 'finished';
  /** What was wrong with the file, the first of it. */
  readonly faults: readonly string[];
  /** Where the damaged file stands now; null where nothing was set aside. */
  readonly aside: string | null;
  /** Where sheets, and what had no place in the atlas, were written as files; null where there was nothing to write. */
  readonly folder: string | null;
  readonly back: {
    readonly sheets: number;
    readonly cases: number;
    readonly entries: number;
    readonly photographs: number;
    readonly learners: number;
    readonly answers: number;
  };
  /** What came from elsewhere than its own rows of the damaged file. */
  readonly from: readonly Recovered[];
  readonly lost: readonly Lost[];
  /** Sorts of things of which the damaged file does not say whether there were more. */
  readonly incomplete: readonly string[];
  readonly packs: readonly MendedPack[];
  readonly learning: LearningPutBack | null;
  /** What does not hold in the new atlas as it is, a sentence each. */
  readonly remarks: readonly string[];
}

export interface Recovered {
  readonly what:
    | 'sheet'
    | 'case number'
    | 'entry'
    | 'words'
    | 'decision'
    | 'photograph'
    | 'place of a photograph'
    | 'setting'
    | 'file'
    | 'paper'
    | 'line of stock'
    | 'price'
    | 'sample'
    | 'learner'
    | 'course'
    | 'card'
    | 'answer'
    | 'trusted key'
    | 'way of reading a table'
    | 'row';
  /** The sheet, photograph or learner it is, or is of. */
  readonly of: string;
  /** `history`: the entries of its case. `index`: what an index of the damaged file says. A file: a backup, or one written aside before. */
  readonly source: 'history' | 'index' | { readonly file: string; readonly at: string | null };
  /** ISO time of what was taken; null where it has none. */
  readonly saved: string | null;
}

export interface Lost {
  readonly what: 'sheet' | 'photograph' | 'small picture' | 'case number' | 'words' | 'place of a photograph' | 'pack';
  /** Its id, or number. */
  readonly id: string;
  /** What is known of it, in words; empty where nothing is. */
  readonly known: string;
}

export interface MendedPack {
  readonly id: string;
  readonly edition: string | null;
  /** `shipped`: the one that comes with the program. Null: it must be loaded again. */
  readonly from: 'damaged file' | 'shipped' | { readonly file: string; readonly at: string | null } | null;
}
