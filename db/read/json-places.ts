import { limits } from '../../reasoner/plain/limits.ts';

/**
 * Where things stand in a JSON text (RFC 8259). `JSON.parse` reads it; this tells the row of every value afterwards, finds keys
 * written twice, of which `JSON.parse` would keep the last without a word, and says in which row a text stops being JSON.
 */
export interface JsonPlaces {
  /** The row (first is 1) of the value at a path, or of the nearest thing around it. */
  rowOf(path: readonly PropertyKey[]): number;
  /** The character of its row it begins at, the first being 1, in UTF-16 code units as editors count them. */
  characterOf(path: readonly PropertyKey[]): number;
  readonly repeated: readonly { readonly path: readonly PropertyKey[]; readonly row: number; readonly character: number }[];
}

export interface NoJson {
  readonly row: number;
  readonly character: number;
  readonly found: string;
  readonly expected: string;
}

export const placesIn = (text: string): JsonPlaces | NoJson => {
  const scan = new Scan(text);
  try {
    scan.document();
  } catch (error) {
    if (error instanceof Broken) return error.at;
    throw error;
  }
  return {
    rowOf: (path) => scan.rows.get(nearestTo(path, scan)) ?? 1,
    characterOf: (path) => scan.characters.get(nearestTo(path, scan)) ?? 1,
    repeated: scan.repeated,
  };
};

/** The key of a path, or of the longest beginning of it at which something stands. */
const nearestTo = (path: readonly PropertyKey[], { rows }: Scan): string => {
  for (let length = path.length; length > 0; length -= 1) {
    const key = pathKey(path.slice(0, length));
    if (rows.has(key)) return key;
  }
  return '';
};

class Broken extends Error {
  readonly at: NoJson;
  constructor(at: NoJson) {
    super(at.expected);
    this.at = at;
  }
}

class Scan {
  readonly rows = new Map<string, number>();
  readonly characters = new Map<string, number>();
  readonly repeated: { path: PropertyKey[]; row: number; character: number }[] = [];
  readonly #text: string;
  #at = 0;
  #row = 1;
  /** Where the row begins. */
  #begins = 0;

  constructor(text: string) {
    this.#text = text;
  }

  document(): void {
    this.#value([]);
    this.#skipSpace();
    if (this.#at < this.#text.length) this.#refuse('the end of the file');
  }

  #value(path: readonly PropertyKey[]): void {
    this.#skipSpace();
    const key = pathKey(path);
    this.rows.set(key, this.#row);
    this.characters.set(key, this.#character());
    const sign = this.#text[this.#at];
    // So that no file can exhaust the stack.
    if ((sign === '{' || sign === '[') && path.length >= limits.jsonDepth) this.#refuse(`values nested no deeper than ${limits.jsonDepth}`);
    if (sign === '{') this.#object(path);
    else if (sign === '[') this.#array(path);
    else if (sign === '"') this.#string();
    else this.#word();
  }

  #object(path: readonly PropertyKey[]): void {
    const seen = new Set<string>();
    this.#at += 1;
    for (let first = true; !this.#closes('}'); first = false) {
      if (!first) this.#take(',', 'a comma or }');
      this.#skipSpace();
      const [row, character] = [this.#row, this.#character()];
      if (this.#text[this.#at] !== '"') this.#refuse('a key in double quotes');
      const key = this.#string();
      if (seen.has(key)) this.repeated.push({ path: [...path, key], row, character });
      seen.add(key);
      this.#take(':', 'a colon');
      this.#value([...path, key]);
    }
  }

  #array(path: readonly PropertyKey[]): void {
    this.#at += 1;
    for (let index = 0; !this.#closes(']'); index += 1) {
      if (index > 0) this.#take(',', 'a comma or ]');
      this.#value([...path, index]);
    }
  }

  #string(): string {
    const start = this.#at;
    for (this.#at += 1; this.#text[this.#at] !== '"'; this.#at += 1) {
      const sign = this.#text[this.#at];
      if (sign === undefined || sign === '\n') this.#refuse('a closing double quote');
      // What stands behind it, unless the line or the text ends there.
      if (sign === '\\' && ![undefined, '\n'].includes(this.#text[this.#at + 1])) this.#at += 1;
    }
    this.#at += 1;
    try {
      return JSON.parse(this.#text.slice(start, this.#at)) as string;
    } catch {
      this.#at = start;
      return this.#refuse('a text without bare control signs and unknown escapes');
    }
  }

  #word(): void {
    const word = /[^\s,:{}[\]"]*/y;
    word.lastIndex = this.#at;
    const found = word.exec(this.#text)?.[0] ?? '';
    if (!/^(true|false|null|-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?)$/.test(found)) this.#refuse('a value');
    this.#at += found.length;
  }

  #closes(sign: '}' | ']'): boolean {
    this.#skipSpace();
    if (this.#text[this.#at] !== sign) return false;
    this.#at += 1;
    return true;
  }

  #take(sign: string, expected: string): void {
    this.#skipSpace();
    if (this.#text[this.#at] !== sign) this.#refuse(expected);
    this.#at += 1;
  }

  #skipSpace(): void {
    for (; this.#at < this.#text.length; this.#at += 1) {
      const sign = this.#text[this.#at];
      if (sign === '\n') {
        this.#row += 1;
        this.#begins = this.#at + 1;
      } else if (sign !== ' ' && sign !== '\t' && sign !== '\r') return;
    }
  }

  #character(): number {
    return this.#at - this.#begins + 1;
  }

  #refuse(expected: string): never {
    const rest = /^[^\s,:{}[\]"]+|^[^\s]/.exec(this.#text.slice(this.#at, this.#at + 40))?.[0];
    const found = this.#text.trim() === '' ? 'an empty file' : rest === undefined ? 'the end of the line or file' : JSON.stringify(rest);
    // A line that ends in CRLF ends before both.
    const ends = this.#text.startsWith('\r\n', this.#at - 1) ? 1 : 0;
    throw new Broken({ row: this.#row, character: this.#character() - ends, found, expected });
  }
}

const pathKey = (path: readonly PropertyKey[]): string =>
  path.map((step) => (typeof step === 'number' ? `[${step}]` : JSON.stringify(step))).join('.');

/** `[3].rules[0].min` */
export const pathText = (path: readonly PropertyKey[]): string =>
  path.map((step, index) => (typeof step === 'number' ? `[${step}]` : `${index === 0 ? '' : '.'}${String(step)}`)).join('');
