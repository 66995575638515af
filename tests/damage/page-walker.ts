/**
 * Which pages of an SQLite file each row of a table stands on, found by a reading of the file format (sqlite.org/fileformat2.html) that shares nothing with
 * the program's own: of a whole file, each tree followed from its root by plain recursion. A row of a damaged copy of the file is readable where none of its
 * pages was hit.
 */
export interface StandingRow {
  /** In the order they are stored in. Of a table with row ids, the row id stands first. */
  readonly values: readonly (string | number | null | Uint8Array)[];
  readonly pages: ReadonlySet<number>;
}

export interface StandingFile {
  readonly pageSize: number;
  readonly pageCount: number;
  /** Rows of each table and entries of each index, by its name. */
  readonly trees: ReadonlyMap<string, readonly StandingRow[]>;
  /** Pages of trees, as against those only what overflows from them stands on, and free ones. */
  readonly treePages: ReadonlySet<number>;
}

export const standingIn = (bytes: Uint8Array): StandingFile => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const rawSize = view.getUint16(16);
  const pageSize = rawSize === 1 ? 65_536 : rawSize;
  const usable = pageSize - view.getUint8(20);
  const treePages = new Set<number>();

  const numberAt = (at: number): [value: number, after: number] => {
    let value = 0n;
    for (let i = 0; i < 8; i += 1) {
      const byte = view.getUint8(at + i);
      value = (value << 7n) | BigInt(byte & 127);
      if (byte < 128) return [Number(value), at + i + 1];
    }
    return [Number(BigInt.asIntN(64, (value << 8n) | BigInt(view.getUint8(at + 8)))), at + 9];
  };

  /** A record that begins at a place of a page, with the pages it goes on to. */
  const recordAt = (start: number, size: number, byRowId: boolean): { readonly data: Uint8Array; readonly pages: number[] } => {
    const maxLocal = byRowId ? usable - 35 : (((usable - 12) * 64) / 255 - 23) | 0;
    if (size <= maxLocal) return { data: bytes.subarray(start, start + size), pages: [] };
    const minLocal = (((usable - 12) * 32) / 255 - 23) | 0;
    const split = minLocal + ((size - minLocal) % (usable - 4));
    const local = split > maxLocal ? minLocal : split;
    const data = new Uint8Array(size);
    data.set(bytes.subarray(start, start + local));
    const pages: number[] = [];
    let page = view.getUint32(start + local);
    for (let done = local; done < size; ) {
      if (page === 0) throw new Error('the whole file is not whole: a chain ends early');
      pages.push(page);
      const at = (page - 1) * pageSize;
      const part = Math.min(usable - 4, size - done);
      data.set(bytes.subarray(at + 4, at + 4 + part), done);
      done += part;
      page = view.getUint32(at);
    }
    return { data, pages };
  };

  const valuesOf = (data: Uint8Array): (string | number | null | Uint8Array)[] => {
    const inner = new DataView(data.buffer, data.byteOffset, data.byteLength);
    const short = (at: number): [number, number] => {
      let value = 0;
      for (let i = at; ; i += 1) {
        const byte = inner.getUint8(i);
        value = value * 128 + (byte % 128);
        if (byte < 128) return [value, i + 1];
      }
    };
    const [end, first] = short(0);
    const values: (string | number | null | Uint8Array)[] = [];
    let body = end;
    for (let at = first; at < end; ) {
      const [type, next] = short(at);
      at = next;
      if (type === 0) values.push(null);
      else if (type === 8 || type === 9) values.push(type - 8);
      else if (type === 7) values.push(inner.getFloat64(body));
      else if (type < 7) {
        const width = [0, 1, 2, 3, 4, 6, 8][type] ?? 0;
        let value = BigInt(inner.getInt8(body));
        for (let i = 1; i < width; i += 1) value = value * 256n + BigInt(inner.getUint8(body + i));
        values.push(Number(value));
        body += width;
        continue;
      } else {
        const length = (type - (type % 2 === 0 ? 12 : 13)) / 2;
        const piece = data.subarray(body, body + length);
        values.push(type % 2 === 0 ? piece : Buffer.from(piece).toString('utf8'));
        body += length;
        continue;
      }
      if (type === 7) body += 8;
    }
    return values;
  };

  const rowsUnder = (page: number, rows: StandingRow[]): StandingRow[] => {
    treePages.add(page);
    const base = (page - 1) * pageSize;
    const header = base + (page === 1 ? 100 : 0);
    const type = view.getUint8(header);
    if (![2, 5, 10, 13].includes(type)) throw new Error(`the whole file is not whole: page ${page} is of type ${type}`);
    const inner = type === 2 || type === 5;
    const byRowId = type === 5 || type === 13;
    for (let n = 0; n < view.getUint16(header + 3); n += 1) {
      let at = base + view.getUint16(header + (inner ? 12 : 8) + n * 2);
      if (inner) {
        rowsUnder(view.getUint32(at), rows);
        at += 4;
        if (byRowId) continue;
      }
      const [size, afterSize] = numberAt(at);
      const [rowId, start] = byRowId ? numberAt(afterSize) : [0, afterSize];
      const { data, pages } = recordAt(start, size, byRowId);
      rows.push({ values: [...(byRowId ? [rowId] : []), ...valuesOf(data)], pages: new Set([page, ...pages]) });
    }
    if (inner) rowsUnder(view.getUint32(header + 8), rows);
    return rows;
  };

  const trees = new Map<string, readonly StandingRow[]>();
  for (const { values } of rowsUnder(1, [])) {
    const [, , name, , root] = values;
    if (typeof root === 'number' && root > 0) trees.set(String(name), rowsUnder(root, []));
  }
  return { pageSize, pageCount: bytes.byteLength / pageSize, trees, treePages };
};
