// A second, slow reading of what a change is, out of the files of packs alone: plain maps of texts, compared one by one.
// It shares nothing with db/changes but the names of cells.

/** What a pack's files say, cell by cell, as JSON text; and apart from it every order in which something stands. */
export interface Naive {
  readonly said: ReadonlyMap<string, string>;
  readonly orders: ReadonlyMap<string, readonly string[]>;
}

const keyedIn: Readonly<Record<string, readonly [field: string, key: string]>> = {
  features: ['options', 'id'],
  makers: ['numbering', 'id'],
  rates: ['parts', 'part'],
};

export const naiveOf = (files: ReadonlyMap<string, string>): Naive => {
  const said = new Map<string, string>();
  const orders = new Map<string, string[]>();
  const put = (key: string, value: unknown) => {
    if (value !== null && value !== undefined) said.set(key, JSON.stringify(value));
  };
  const inOrder = (list: string, id: string) => {
    orders.set(list, [...(orders.get(list) ?? []), id]);
    put(`${list}/${id}`, true);
  };
  for (const [file, text] of files) {
    if (file === 'pack.json') {
      for (const [field, value] of Object.entries(JSON.parse(text) as object))
        if (!['format', 'version', 'id'].includes(field)) put(`pack/${field}`, value);
    } else if (file.startsWith('sheets/')) {
      const sheet = JSON.parse(text) as { id: string };
      put(`sheets/${sheet.id}`, sheet);
    } else if (file.endsWith('.json')) {
      const list = file.slice(0, -'.json'.length);
      const [keyedField, key] = keyedIn[list] ?? ['', ''];
      for (const entry of JSON.parse(text) as { id: string }[]) {
        inOrder(list, entry.id);
        for (const [field, value] of Object.entries(entry)) {
          if (field === 'id') continue;
          if (field !== keyedField) put(`${list}/${entry.id}/${field}`, value);
          else
            for (const line of value as unknown as Record<string, unknown>[]) {
              const { [key]: of, ...rest } = line;
              orders.set(`${list}/${entry.id}/${field}`, [...(orders.get(`${list}/${entry.id}/${field}`) ?? []), String(of)]);
              put(`${list}/${entry.id}/${field}/${of}`, rest);
            }
        }
      }
    } else {
      const [header = '', ...rows] = text.trimEnd().split('\n');
      for (const row of rows) {
        const cells = Object.fromEntries(header.split(',').map((column, index) => [column, row.split(',')[index] ?? '']));
        if (file === 'parts.csv') {
          inOrder('parts', cells.id as string);
          for (const [column, value] of Object.entries(cells))
            if (column !== 'id' && value !== '') put(`parts/${cells.id}/${column}`, value);
          if (cells.numbers === '') put(`parts/${cells.id}/numbers`, '');
        } else if (file === 'facts.csv') {
          const { part, feature, ...rest } = cells;
          put(`parts/${part}/facts/${feature}`, rest);
        } else put(`allowed/${cells.model}/${cells.part}`, { slot: cells.slot, role: cells.role });
      }
    }
  }
  return { said, orders };
};

/** Keys whose text differs. */
export const naiveDiff = (a: ReadonlyMap<string, string>, b: ReadonlyMap<string, string>): string[] => {
  const keys = new Set([...a.keys(), ...b.keys()]);
  return [...keys].filter((key) => a.get(key) !== b.get(key)).sort();
};

/**
 * Three states, the middle one in dispute with the last wherever both said something new and not the same; and wherever one says something of an
 * entry that the other took away.
 */
export const naiveMerge = (
  base: ReadonlyMap<string, string>,
  one: ReadonlyMap<string, string>,
  other: ReadonlyMap<string, string>,
): { readonly said: ReadonlyMap<string, string>; readonly disputes: readonly string[] } => {
  const said = new Map<string, string>();
  const disputes: string[] = [];
  for (const key of new Set([...base.keys(), ...one.keys(), ...other.keys()])) {
    const [b, x, y] = [base.get(key), one.get(key), other.get(key)];
    const value = x === y ? x : x === b ? y : y === b ? x : undefined;
    if (x !== y && x !== b && y !== b) disputes.push(key);
    if (value !== undefined) said.set(key, value);
  }
  const gone = (state: ReadonlyMap<string, string>, entry: string) => base.has(entry) && !state.has(entry);
  for (const key of new Set([...one.keys(), ...other.keys()])) {
    const [list, id, field] = key.split('/');
    if (field === undefined || list === 'allowed' || base.has(key) || disputes.includes(key)) continue;
    if ((one.has(key) && gone(other, `${list}/${id}`)) || (other.has(key) && gone(one, `${list}/${id}`))) disputes.push(key);
  }
  return { said, disputes: disputes.sort() };
};
