import { type Trouble, trouble } from '../trouble.ts';

/** One thing wrong in a pack. */
export interface Fault extends Trouble {
  readonly file: string;
  /** Line in the file, the first being 1; of a CSV the row as a spreadsheet counts it, header included. */
  readonly row: number | null;
  /** Column of a CSV; path within a JSON file (`[3].rules[0].min`). */
  readonly column: string | null;
  readonly found: string;
  readonly expected: string;
}

export interface Place {
  readonly file: string;
  readonly row?: number | null;
  readonly column?: string | null;
}

/** The place of a path within something. */
export type At = (path: readonly PropertyKey[]) => Place;

/** Collects what is wrong with a pack, up to a limit, so that one reading shows all there is to mend. */
export class Faults {
  readonly found: Fault[] = [];
  readonly limit: number;
  #more = 0;
  /** Files that could not be taken in whole: references into them are not judged. */
  readonly #broken = new Set<string>();

  constructor(limit: number) {
    this.limit = limit;
  }

  add(place: Place, found: string, expected: string): void {
    this.#broken.add(place.file);
    if (this.found.length >= this.limit) {
      this.#more += 1;
      return;
    }
    const row = place.row ?? null;
    const column = place.column ?? null;
    const at = placeText(place);
    const sentence = `${at}: found ${found}, expected ${expected}.`;
    this.found.push({ code: 'pack-invalid', place: at, sentence, file: place.file, row, column, found, expected });
  }

  /** Those of another reading of the same pack. */
  addAll({ all = [] }: Trouble): void {
    for (const { file, row, column, found, expected } of all as readonly Fault[]) this.add({ file, row, column }, found, expected);
  }

  isBroken(file: string): boolean {
    return this.#broken.has(file);
  }

  get count(): number {
    return this.found.length + this.#more;
  }

  /** The whole as one trouble; the faults are its `all`. */
  asTrouble(folder: string): Trouble {
    const [first] = this.found;
    if (first === undefined) throw new Error('no faults were found');
    const rest = this.count - 1;
    const listed = this.#more > 0 ? ` (the first ${this.limit} are listed)` : '';
    const sentence =
      rest === 0
        ? `The pack was not loaded. ${first.sentence}`
        : `The pack was not loaded: ${this.count} faults were found${listed}. The first: ${first.sentence}`;
    return { ...trouble('pack-invalid', `${folder}/${first.place}`, sentence), all: this.found };
  }
}

/** `models.json, row 12, column [3].from` */
export const placeText = ({ file, row = null, column = null }: Place): string =>
  [file, row === null ? null : `row ${row}`, column === null ? null : `column ${column}`].filter((word) => word !== null).join(', ');

/** A value as it is shown in a fault: quoted, and cut when it is long. */
export const shown = (value: unknown): string => {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 80 ? `${text.slice(0, 77)}…` : text;
};
