import type { Cells, Outcome } from '../../db/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { refusal } from '../bridge/reply.ts';
import { HeldFiles } from './held-files.ts';

/** To who asks for a table that is not held. */
export const tableGone = refusal(
  'not-found',
  'token',
  'That table is no longer held: others came after it, or Kinplate was started again. Hand it in once more.',
);

/** Cells take many times the room of their file, so those of few files are kept. */
const cellsOfFiles = 3;

interface Kept {
  /** A file may still grow by a part. */
  readonly bytes: number;
  readonly cells: Outcome<Cells>;
}

/** Tables on their way in, and their cells, which are made once of what was handed in. */
export class HeldTables {
  readonly #files: HeldFiles;
  readonly #read: (bytes: Buffer, name: string) => Outcome<Cells>;
  readonly #nothing: string;
  readonly #cells = new Map<string, Kept>();

  /**
   * @param keep so many files are held
   * @param nothing what became of a file that is too large: `Nothing was brought in`
   */
  constructor(keep: number, nothing: string, read: (bytes: Buffer, name: string) => Outcome<Cells>) {
    this.#files = new HeldFiles(keep, tableGone);
    this.#nothing = nothing;
    this.#read = read;
  }

  handIn(part: Parameters<HeldFiles['handIn']>[0]): ReturnType<HeldFiles['handIn']> {
    const beside = `${this.#nothing}; take it apart into several.`;
    return this.#files.handIn(part, { most: limits.spreadsheetBytes, code: 'table-too-large', beside });
  }

  /** What was put together so far; null for a token nobody was given, or whose file was dropped. */
  whole(token: string): { readonly name: string; readonly bytes: Buffer } | null {
    return this.#files.whole(token);
  }

  cellsOf(token: string): Outcome<Cells> | null {
    for (const old of this.#cells.keys()) if (this.whole(old) === null) this.#cells.delete(old);
    const held = this.whole(token);
    if (held === null) return null;
    const before = this.#cells.get(token);
    if (before?.bytes === held.bytes.length) return before.cells;
    const cells = this.#read(held.bytes, held.name);
    this.#cells.delete(token);
    this.#cells.set(token, { bytes: held.bytes.length, cells });
    for (const old of [...this.#cells.keys()].slice(0, -cellsOfFiles)) this.#cells.delete(old);
    return cells;
  }
}
