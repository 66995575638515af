import { visible } from '../plain/visible.ts';
import { type Trouble, trouble } from '../trouble.ts';
import type { CsvPlaces } from './csv-places.ts';

/** One thing wrong in a pack. */
export interface Fault extends Trouble {
  readonly file: string;
  /** Line in the file, the first being 1; of a CSV the row as a spreadsheet counts it, header included. */
  readonly row: number | null;
  /** Column of a CSV; path within a JSON file (`[3].rules[0].min`). */
  readonly column: string | null;
  /** Line of the text as an editor counts them, and the character of it, both from 1; null where the whole of the file or line is meant. */
  readonly line: number | null;
  readonly character: number | null;
  readonly found: string;
  readonly expected: string;
}

export interface Place {
  readonly file: string;
  readonly row?: number | null;
  readonly column?: string | null;
  /** Where it is known beforehand, as in JSON; of a CSV it is looked up when it is wanted. */
  readonly character?: number | null;
}

/** The place of a path within something. */
export type At = (path: readonly PropertyKey[]) => Place;

/** Collects what is wrong with a pack, up to a limit, so that one reading shows all there is to mend. */
export class Faults {
  readonly found: Fault[] = [];
  /** Files that could not be read, and tables of which rows could not. */
  readonly unread = new Set<string>();
  readonly limit: number;
  #more = 0;
  /** Files that could not be taken in whole: references into them are not judged. */
  readonly #broken = new Set<string>();
  readonly #cells = new Map<string, { readonly columns: readonly string[]; readonly places: CsvPlaces }>();

  constructor(limit: number) {
    this.limit = limit;
  }

  /** Tells where the cells of a CSV stand in its text. */
  cellsOf(file: string, columns: readonly string[], places: CsvPlaces): void {
    this.#cells.set(file, { columns, places });
  }

  /** Line and character of a place, from 1. */
  whereIs({ file, row = null, column = null, character = null }: Place): {
    readonly line: number | null;
    readonly character: number | null;
  } {
    const cells = this.#cells.get(file);
    if (cells === undefined || row === null) return { line: row, character: row === null ? null : character };
    const index = column === null ? -1 : cells.columns.indexOf(column);
    return cells.places.at(row, index === -1 ? null : index) ?? { line: row, character: null };
  }

  add(place: Place, found: string, expected: string): void {
    this.#broken.add(place.file);
    if (this.found.length >= this.limit) {
      this.#more += 1;
      return;
    }
    this.found.push(faultAt(place, this.whereIs(place), found, expected));
  }

  /** Those of another reading of the same pack. */
  addAll({ all = [] }: Trouble): void {
    for (const { file, row, column, character, found, expected } of all as readonly Fault[])
      this.add({ file, row, column, character }, found, expected);
  }

  isBroken(file: string): boolean {
    return this.#broken.has(file);
  }

  get count(): number {
    return this.found.length + this.#more;
  }

  /** The whole as one trouble; the faults are its `all`. */
  asTrouble(folder: string, what = 'The pack'): Trouble {
    const [first] = this.found;
    if (first === undefined) throw new Error('no faults were found');
    const rest = this.count - 1;
    const listed = this.#more > 0 ? ` (the first ${this.limit} are listed)` : '';
    const sentence =
      rest === 0
        ? `${what} has a fault, so nothing was done with it. ${first.sentence}`
        : `${what} has ${this.count} faults${listed}, so nothing was done with it. The first: ${first.sentence}`;
    return { ...trouble('pack-invalid', `${folder}/${first.place}`, sentence), all: this.found };
  }
}

/** One fault as it is told, with nothing in it that a terminal would obey. */
export const faultAt = (
  place: Place,
  where: Pick<Fault, 'line' | 'character'>,
  found: string,
  expected: string,
  code = 'pack-invalid',
): Fault => {
  const at = placeText(place);
  const [was, wanted] = [visible(found), visible(expected)];
  const column = place.column == null ? null : visible(place.column);
  const { line, character } = where;
  const sentence = `${at}: found ${was}, expected ${wanted}.`;
  return { code, place: at, sentence, file: place.file, row: place.row ?? null, column, line, character, found: was, expected: wanted };
};

/** `models.json, row 12, column [3].from` */
export const placeText = ({ file, row = null, column = null }: Place): string =>
  visible(
    [file, row === null ? null : `row ${row}`, column === null ? null : `column ${column}`].filter((word) => word !== null).join(', '),
  );

/** A value as it is shown in a fault: quoted, and cut when it is long. */
export const shown = (value: unknown): string => {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 80 ? `${text.slice(0, 77)}…` : text;
};
