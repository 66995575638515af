import type { Door } from '../driver/door.ts';
import type { Reader } from '../driver/driver.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
import {
  heldLine,
  linesStand,
  newLineId,
  noSuchLine,
  stateWritten,
  stockLines,
  stockOf,
  stockStates,
  versionOfLine,
  withItsPart,
} from './kept-stock.ts';
import { type ShopTableFault, tableRefused } from './read-shop-table.ts';
import type { KeptStockLine, StockLine, StockLineId, StockState, StockTable } from './stock.ts';
import { readStockTable, type StockRow } from './stock-csv.ts';

/** Who writes, and against which version. */
export interface WritingStock {
  readonly who: string;
  readonly madeAgainst?: MadeAgainst;
}

/** What lies on the shop's shelves, with every state each line of the list had. */
export interface StockShelf {
  /** By where it lies, then by name. */
  list(): Promise<Outcome<readonly KeptStockLine[]>>;
  /** Lines of any of these parts, and lines in words that have this number (as numbers are compared). */
  of(parts: readonly string[], typed: string): Promise<Outcome<readonly KeptStockLine[]>>;
  /** What a line said, newest first; also of one that was taken off. Trouble: `not-found`. */
  history(line: StockLineId): Promise<Outcome<readonly StockState[]>>;
  /** A new line where `id` is null. Troubles: `not-found` of a part, `changed-since`. */
  save(id: StockLineId | null, line: StockLine, writing: WritingStock): Promise<Outcome<KeptStockLine>>;
  /** So many fewer. Troubles: `not-found`, and `stock-short` where fewer lie there. */
  take(id: StockLineId, many: number, who: string): Promise<Outcome<KeptStockLine>>;
  /** Off the list; its states stay. Troubles: `not-found`, `changed-since`. */
  remove(id: StockLineId, writing: WritingStock): Promise<Outcome<null>>;
  /** What a table of stock would do (FORMAT: `stock-csv.ts`). Troubles: `stock-table-invalid` with every fault. */
  lookAtTable(text: string, file: string): Promise<Outcome<StockTable>>;
  /** The same, done: all of it or nothing. */
  takeInTable(text: string, file: string, who: string): Promise<Outcome<StockTable>>;
}

export const stockShelf = ({ read, write, now }: Door): StockShelf => {
  const listed = async (id: StockLineId): Promise<Outcome<KeptStockLine>> =>
    read(async (reader) => {
      const line = await heldLine(reader, id);
      if (line === null) throw new TroubleError(noSuchLine(id));
      return line;
    });
  return {
    list: () => read((reader) => stockLines(reader)),
    of: (parts, typed) => read((reader) => stockOf(reader, parts, typed)),
    history: (id) =>
      read(async (reader) => {
        const states = await stockStates(reader, id);
        if (states.length === 0) throw new TroubleError(noSuchLine(id));
        return states;
      }),
    save: async (given, line, { who, madeAgainst }) => {
      const [id, at] = [given ?? newLineId(), now().toISOString()];
      const saved = await write(async (reader) => {
        const held = await heldLine(reader, id);
        if (given !== null && held === null && madeAgainst === undefined) throw new TroubleError(noSuchLine(id));
        const told = await withItsPart(reader, line, held);
        checkMadeAgainst(
          given === null ? undefined : madeAgainst,
          held === null ? null : versionedLine(held),
          `stock ${id}`,
          nameOf(line),
          told,
        );
        if (held !== null && versionOfLine(held) === versionOfLine(told)) return { batch: null, value: null };
        const states = await stockStates(reader, id);
        return {
          batch: {
            guards: linesStand([[id, states.length]]),
            statements: stateWritten([{ id, n: states.length + 1, line: told, gone: false }], at, who),
          },
          value: null,
        };
      });
      return saved.ok ? listed(id) : saved;
    },
    take: async (id, many, who) => {
      const at = now().toISOString();
      const taken = await write(async (reader) => {
        const held = await heldLine(reader, id);
        if (held === null) throw new TroubleError(noSuchLine(id));
        if (many > held.many)
          throw new TroubleError(
            trouble(
              'stock-short',
              'many',
              `The list has ${held.many === 0 ? 'none' : held.many} of “${held.name}” left, so ${many} cannot be taken. Nothing was changed.`,
            ),
          );
        return {
          batch: {
            guards: linesStand([[id, held.state]]),
            statements: stateWritten(
              [{ id, n: held.state + 1, line: { ...versionedLine(held), many: held.many - many }, gone: false }],
              at,
              who,
            ),
          },
          value: null,
        };
      });
      return taken.ok ? listed(id) : taken;
    },
    remove: (id, { who, madeAgainst }) => {
      const at = now().toISOString();
      return write(async (reader) => {
        const held = await heldLine(reader, id);
        if (held === null) throw new TroubleError(noSuchLine(id));
        checkMadeAgainst(madeAgainst, versionedLine(held), `stock ${id}`, nameOf(held));
        return {
          batch: {
            guards: linesStand([[id, held.state]]),
            statements: stateWritten([{ id, n: held.state + 1, line: versionedLine(held), gone: true }], at, who),
          },
          value: null,
        };
      });
    },
    lookAtTable: async (text, file) => {
      const rows = readStockTable(text, file);
      if ('faults' in rows) return failed(tableRefused(file, rows.faults));
      return read(async (reader) => (await plannedTable(reader, rows.rows, file)).table);
    },
    takeInTable: async (text, file, who) => {
      const rows = readStockTable(text, file);
      if ('faults' in rows) return failed(tableRefused(file, rows.faults));
      const at = now().toISOString();
      const written = await write(async (reader) => {
        const { states, table } = await plannedTable(reader, rows.rows, file);
        const batch =
          states.length === 0
            ? null
            : { guards: linesStand(states.map(({ id, n }) => [id, n - 1] as const)), statements: stateWritten(states, at, who) };
        return { batch, value: table };
      });
      return written.ok ? done(written.value) : written;
    },
  };
};

/** What a line says, without what is known of it besides. */
const versionedLine = ({ part, words, number, many, condition, price, place, note }: StockLine): StockLine => ({
  part,
  words,
  number,
  many,
  condition,
  price,
  place,
  note,
});

const nameOf = ({ words }: StockLine): string => `The line “${words}” of the stock list`;

interface PlannedTable {
  readonly states: readonly { readonly id: StockLineId; readonly n: number; readonly line: StockLine; readonly gone: boolean }[];
  readonly table: StockTable;
}

/** What a table alters of the list as it stands. Throws `stock-table-invalid` where it speaks of what is not there, or is otherwise than when the table was written. */
const plannedTable = async (reader: Reader, rows: readonly StockRow[], file: string): Promise<PlannedTable> => {
  const held = new Map((await stockLines(reader)).map((line) => [line.id, line]));
  const states: PlannedTable['states'][number][] = [];
  const faults: ShopTableFault[] = [];
  let [fresh, changed, same] = [0, 0, 0];
  for (const { row, id, state, line } of rows) {
    const before = id === null ? null : (held.get(id) ?? null);
    const place = `${file}, row ${row}`;
    if (id !== null && before === null) {
      faults.push({
        place: `${place}, column line`,
        sentence: `Row ${row}, “line”: the list has no line “${id}”. Leave the column empty for a new line.`,
      });
      continue;
    }
    const told = await withItsPart(reader, line, before).catch((error: unknown) => {
      if (!(error instanceof TroubleError)) throw error;
      faults.push({ place: `${place}, column part`, sentence: `Row ${row}, “part”: the atlas has no part “${line.part}”.` });
      return null;
    });
    if (told === null) continue;
    if (before !== null && versionOfLine(before) === versionOfLine(told)) {
      same += 1;
    } else if (before !== null && before.state !== state) {
      const sentence = `Row ${row}: “${before.name}” was changed on the list since this table was written (${before.who || 'nobody said who'}, ${before.at.slice(0, 10)}). Write the table anew and make the change in that.`;
      faults.push({ place: `${place}, column state`, sentence });
    } else if (before === null) {
      fresh += 1;
      states.push({ id: newLineId(), n: 1, line: told, gone: false });
    } else {
      changed += 1;
      states.push({ id: before.id, n: before.state + 1, line: told, gone: false });
    }
  }
  if (faults.length > 0) throw new TroubleError(tableRefused(file, faults));
  return { states, table: { fresh, changed, same } };
};
