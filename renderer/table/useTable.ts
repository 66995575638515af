import { useState } from 'react';
import type { ChangeMade } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { ColumnUse, Matching, Mended, TableKind, TableMatched } from '../../electron/bridge/table-calls.ts';
import { desk } from '../bridge/desk.ts';
import { handInTable } from './tableFile.ts';

export type Step = 'table' | 'columns' | 'cells' | 'change';

/** Where bringing a table in stands. */
export interface TableStands {
  readonly step: Step;
  readonly kind: TableKind;
  readonly token: string | null;
  readonly matched: TableMatched | null;
  /** What was matched, as it was corrected. */
  readonly matching: Matching | null;
  /** Columns that were set by hand. */
  readonly byHand: ReadonlySet<number>;
  readonly mended: Mended;
  readonly made: (ChangeMade & { readonly source: string }) | null;
  readonly busy: boolean;
  readonly trouble: { readonly lead: string; readonly trouble: Trouble } | null;
}

const nothingMended: Mended = { cells: {}, confirmed: [], left: [], makers: [] };
const nothing: TableStands = {
  step: 'table',
  kind: 'parts',
  token: null,
  matched: null,
  matching: null,
  byHand: new Set(),
  mended: nothingMended,
  made: null,
  busy: false,
  trouble: null,
};

/** It stands while somebody looks elsewhere in the window. */
let last = nothing;

export interface TableWork extends TableStands {
  go(step: Step): void;
  setKind(kind: TableKind): void;
  handIn(name: string, content: Blob): Promise<void>;
  /** Matches it anew; what is left out stays as it is. */
  match(with_: {
    readonly sheet?: string | null;
    readonly headings?: number | null;
    readonly template?: string | null;
    readonly kind?: TableKind;
  }): Promise<void>;
  setColumn(column: number, use: ColumnUse): void;
  setMatching(part: Partial<Pick<Matching, 'slot' | 'maker'>>): void;
  mend(change: (before: Mended) => Mended): void;
  done(made: ChangeMade, source: string): void;
  again(): void;
}

/** A table on its way in. The desk holds what was handed in; what is said of it is held here. */
export const useTable = (): TableWork => {
  const [state, setHere] = useState(last);
  const set = (next: (before: TableStands) => TableStands): void => {
    last = next(last);
    setHere(last);
  };
  const match = async (
    token: string,
    kind: TableKind,
    { sheet, headings, template, slot }: { sheet: string | null; headings: number | null; template: string | null; slot: Matching['slot'] },
  ): Promise<boolean> => {
    set((before) => ({ ...before, busy: true, trouble: null }));
    const reply = await desk.ask('table.match', { token, kind, sheet, headings, slot, template });
    set((before) =>
      reply.ok
        ? {
            ...before,
            token,
            kind,
            matched: reply.value,
            matching: reply.value.matching,
            byHand: new Set(),
            busy: false,
            step: 'columns',
          }
        : { ...before, busy: false, trouble: { lead: 'The table could not be read.', trouble: reply.trouble } },
    );
    return reply.ok;
  };
  return {
    ...state,
    go: (step) => set((before) => ({ ...before, step, trouble: null })),
    setKind: (kind) => set((before) => ({ ...before, kind })),
    handIn: async (name, content) => {
      set((before) => ({ ...nothing, kind: before.kind, busy: true }));
      const handed = await handInTable(name, content);
      if (!handed.ok) {
        set((before) => ({ ...before, busy: false, trouble: { lead: 'The table was not taken.', trouble: handed.trouble } }));
        return;
      }
      await match(handed.value, last.kind, { sheet: null, headings: null, template: null, slot: null });
    },
    match: async ({ sheet, headings, template, kind }) => {
      const { token, matching } = last;
      if (token === null || matching === null) return;
      const another = kind !== undefined || sheet !== undefined || headings !== undefined;
      await match(token, kind ?? last.kind, {
        sheet: sheet === undefined ? matching.sheet : sheet,
        headings: headings === undefined ? (another ? null : matching.headings) : headings,
        template: template === undefined ? null : template,
        slot: kind === undefined ? matching.slot : null,
      });
      if (another) set((before) => ({ ...before, mended: nothingMended }));
    },
    setColumn: (column, use) =>
      set((before) =>
        before.matching === null
          ? before
          : {
              ...before,
              matching: { ...before.matching, columns: before.matching.columns.map((one, at) => (at === column ? use : one)) },
              byHand: new Set([...before.byHand, column]),
            },
      ),
    setMatching: (part) => set((before) => (before.matching === null ? before : { ...before, matching: { ...before.matching, ...part } })),
    mend: (change) => set((before) => ({ ...before, mended: change(before.mended) })),
    done: (made, source) => set((before) => ({ ...nothing, kind: before.kind, made: { ...made, source } })),
    again: () => set((before) => ({ ...nothing, kind: before.kind })),
  };
};
