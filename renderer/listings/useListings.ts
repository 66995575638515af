import { useCallback, useEffect, useRef, useState } from 'react';
import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import type { ListingMatching, ListingsDone, ListingsMatched } from '../../electron/bridge/listings-calls.ts';
import type { ListingsProgress, ListingsRow } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';

export type ListingsStands =
  | { readonly state: 'none' }
  /** A table whose columns are looked at. */
  | { readonly state: 'columns'; readonly table: string; readonly matched: ListingsMatched; readonly matching: ListingMatching }
  | { readonly state: 'running'; readonly progress: ListingsProgress; readonly stopping: boolean }
  | { readonly state: 'done'; readonly listings: ListingsDone; readonly rows: readonly ListingsRow[]; readonly token: string }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

/** The last list of this window, and its last table: a sheet opened from the list leads back to the list as it was. */
let last: ListingsStands = { state: 'none' };
let lastToken: string | null = null;
let lastTable: { readonly table: string; readonly matched: ListingsMatched; readonly matching: ListingMatching } | null = null;
/** The row that was opened from it, by its source. */
let opened: string | null = null;

export const rowOpened = (): string | null => opened;
export const noteOpened = (source: string): void => {
  opened = source;
};

/** How often the desk is asked how far it is, ms. */
const every = 150;
/** Rows that are fetched first, and with each more. */
const first = 200;
const more = 1000;

/** One list at a time. It goes on, and stays, while its sheets are looked at elsewhere in the window. */
export function useListings() {
  const [stands, setHere] = useState<ListingsStands>(last);
  const following = useRef<string | null>(null);
  const stopped = useRef(false);
  const set = useCallback((next: ListingsStands) => {
    last = next;
    setHere(next);
  }, []);

  const follow = useCallback(
    async (token: string) => {
      following.current = token;
      lastToken = token;
      while (following.current === token) {
        const reply = await desk.ask('listings.progress', { token });
        if (following.current !== token) return;
        if (!reply.ok) return set({ state: 'trouble', trouble: reply.trouble });
        if (reply.value.state === 'done') {
          const rows = await desk.ask('listings.rows', { token, from: 0, count: first });
          if (following.current !== token) return;
          if (!rows.ok) return set({ state: 'trouble', trouble: rows.trouble });
          opened = null;
          return set({ state: 'done', listings: reply.value.listings, rows: rows.value, token });
        }
        set({ state: 'running', progress: reply.value.progress, stopping: stopped.current });
        await new Promise((resolve) => setTimeout(resolve, every));
      }
    },
    [set],
  );

  useEffect(() => {
    if (last.state === 'running' && lastToken !== null) void follow(lastToken);
    return () => {
      following.current = null;
    };
  }, [follow]);

  const start = useCallback(
    async (args: CallArgs<'listings.start'>) => {
      if (following.current !== null) void desk.ask('listings.cancel', { token: following.current });
      following.current = null;
      lastToken = null;
      stopped.current = false;
      set({ state: 'running', progress: { judged: 0, of: 0 }, stopping: false });
      const begun = await desk.ask('listings.start', args);
      if (!begun.ok) return set({ state: 'trouble', trouble: begun.trouble });
      // Stopped before the token was here.
      if (stopped.current) await desk.ask('listings.cancel', { token: begun.value.token });
      await follow(begun.value.token);
    },
    [follow, set],
  );

  const stop = useCallback(() => {
    stopped.current = true;
    if (last.state === 'running') set({ ...last, stopping: true });
    if (following.current !== null) void desk.ask('listings.cancel', { token: following.current });
  }, [set]);

  /** Shows what the columns of a table are taken for; one of sheets, which has its own, is judged at once. */
  const look = useCallback(
    async (table: string, where: { readonly sheet: string | null; readonly headings: number | null }) => {
      const reply = await desk.ask('listings.columns', { token: table, ...where });
      if (!reply.ok) return set({ state: 'trouble', trouble: reply.trouble });
      if (reply.value === null) return start({ files: [], tables: [{ token: table, matching: null }], shelf: false });
      lastTable = { table, matched: reply.value, matching: reply.value.matching };
      set({ state: 'columns', ...lastTable });
    },
    [set, start],
  );

  const setMatching = useCallback(
    (matching: ListingMatching) => {
      if (lastTable === null) return;
      lastTable = { ...lastTable, matching };
      set({ state: 'columns', ...lastTable });
    },
    [set],
  );

  const fetchMore = useCallback(async () => {
    if (last.state !== 'done') return;
    const { token, rows } = last;
    const reply = await desk.ask('listings.rows', { token, from: rows.length, count: more });
    if (!reply.ok) return set({ state: 'trouble', trouble: reply.trouble });
    if (last.state === 'done' && last.token === token) set({ ...last, rows: [...rows, ...reply.value] });
  }, [set]);

  /** To the columns of the table the list was made of, to take them otherwise. */
  const columnsAgain = useCallback(() => {
    if (lastTable !== null) set({ state: 'columns', ...lastTable });
  }, [set]);
  const forget = useCallback(() => {
    lastTable = null;
  }, []);

  return { stands, start, stop, look, setMatching, fetchMore, columnsAgain, forget, ofATable: lastTable !== null };
}
