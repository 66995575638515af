/**
 * Where things stand in a JSON text. `JSON.parse` reads it; this tells the row of every value afterwards, and finds
 * keys written twice, of which `JSON.parse` would keep the last without a word.
 */
export interface JsonPlaces {
  /** The row (first is 1) of the value at a path, or of the nearest thing around it. */
  rowOf(path: readonly PropertyKey[]): number;
  readonly repeated: readonly { readonly path: readonly PropertyKey[]; readonly row: number }[];
}

/** `text` must be well-formed JSON. */
export const placesIn = (text: string): JsonPlaces => {
  const rows = new Map<string, number>();
  const repeated: { path: PropertyKey[]; row: number }[] = [];
  let at = 0;
  let row = 1;

  const skipSpace = (): void => {
    for (; at < text.length; at += 1) {
      const sign = text[at];
      if (sign === '\n') row += 1;
      else if (sign !== ' ' && sign !== '\t' && sign !== '\r') return;
    }
  };
  const string = (): string => {
    const start = at;
    for (at += 1; text[at] !== '"'; at += 1) if (text[at] === '\\') at += 1;
    at += 1;
    return JSON.parse(text.slice(start, at)) as string;
  };
  const value = (path: readonly PropertyKey[]): void => {
    skipSpace();
    rows.set(keyOf(path), row);
    const sign = text[at];
    if (sign === '{') members('}', path);
    else if (sign === '[') members(']', path);
    else if (sign === '"') string();
    else while (at < text.length && !/[\s,\]}]/.test(text[at] as string)) at += 1;
  };
  const members = (close: '}' | ']', path: readonly PropertyKey[]): void => {
    const seen = new Set<string>();
    at += 1;
    for (let index = 0; ; index += 1) {
      skipSpace();
      if (text[at] === close) break;
      if (text[at] === ',') {
        at += 1;
        skipSpace();
      }
      let key: PropertyKey = index;
      if (close === '}') {
        const start = row;
        key = string();
        if (seen.has(key)) repeated.push({ path: [...path, key], row: start });
        seen.add(key);
        skipSpace();
        at += 1; // the colon
      }
      value([...path, key]);
    }
    at += 1;
  };

  value([]);
  return {
    rowOf: (path) => {
      for (let length = path.length; length >= 0; length -= 1) {
        const found = rows.get(keyOf(path.slice(0, length)));
        if (found !== undefined) return found;
      }
      return 1;
    },
    repeated,
  };
};

const keyOf = (path: readonly PropertyKey[]): string =>
  path.map((step) => (typeof step === 'number' ? `[${step}]` : JSON.stringify(step))).join('.');

/** `[3].rules[0].min` */
export const pathText = (path: readonly PropertyKey[]): string =>
  path.map((step, index) => (typeof step === 'number' ? `[${step}]` : `${index === 0 ? '' : '.'}${String(step)}`)).join('');
