import { useCallback, useEffect, useMemo, useReducer, useRef, useState } from 'react';
import { desk } from '../bridge/desk.ts';
import { remember } from '../look/preference.ts';
import { type Benches, type BenchesAction, benchesAfter, benchesAtStart, listOf, type OpenList, shownOf } from './benches.ts';
import { forgetOnlyDraft, keepDraft, keepOpenList, recallDrafts, recallLast, recallOpenList } from './draft.ts';
import { newSheetId } from './sheetEdits.ts';
import { idOf, isUnsaved, type Unit, unitOf } from './unit.ts';

type WithoutFresh<A> = A extends unknown ? Omit<A, 'fresh'> : never;

export interface HeldBenches {
  readonly benches: Benches;
  /** As they are at this moment, for whoever comes back from the desk. */
  now(): Benches;
  act(action: WithoutFresh<BenchesAction>): void;
}

/** The open units of this window, remembered on this computer: drafts with every change, and which were open. A window that begins has what it, or a lost one, had. */
export const useBenches = (): HeldBenches => {
  // Read before the effects below write it.
  const [before] = useState(beforeThis);
  const [benches, dispatch] = useReducer(benchesAfter, before, ({ drafts, list }) => benchesAtStart(drafts, list, newSheetId()));
  const latest = useRef(benches);
  latest.current = benches;
  const act = useCallback((action: WithoutFresh<BenchesAction>) => dispatch({ ...action, fresh: newSheetId() } as BenchesAction), []);

  useKeptDrafts(benches.open);
  const list = JSON.stringify(listOf(benches));
  const last = shownOf(benches, benches.kind)?.kept?.sheet.id ?? null;
  useEffect(() => keepOpenList(JSON.parse(list) as OpenList), [list]);
  useEffect(() => remember('last sheet', last), [last]);

  useEffect(() => {
    const { list: wanted } = before;
    const { coming } = latest.current;
    if (wanted === null || coming.length === 0) return;
    void Promise.all(coming.map(async (id) => ({ id, reply: await desk.ask('sheets.open', { id }) }))).then((all) =>
      act({
        do: 'bring back',
        opened: all.flatMap(({ reply }) => (reply.ok ? [reply.value] : [])),
        gone: all.flatMap(({ id, reply }) => (!reply.ok && reply.trouble.code === 'not-found' ? [id] : [])),
        before: wanted,
      }),
    );
  }, [before, act]);

  const now = useCallback(() => latest.current, []);
  return useMemo(() => ({ benches, now, act }), [benches, now, act]);
};

const beforeThis = (): { readonly drafts: readonly Unit[]; readonly list: OpenList | null } => {
  const drafts = recallDrafts().map(({ sheet, kept }) => unitOf(sheet, kept, true));
  return { drafts, list: recallOpenList() ?? (drafts.length === 0 ? recallLast() : null) };
};

/** Writes what changed of what is not saved, and of no other unit. */
const useKeptDrafts = (open: readonly Unit[]): void => {
  const written = useRef<ReadonlyMap<string, Unit>>(new Map());
  useEffect(() => {
    const before = written.current;
    written.current = new Map(open.map((unit) => [idOf(unit), unit]));
    for (const unit of open) {
      const was = before.get(idOf(unit));
      if (was?.history.present === unit.history.present && was.kept === unit.kept) continue;
      keepDraft(idOf(unit), isUnsaved(unit) ? { sheet: unit.history.present, kept: unit.kept } : null);
    }
    for (const [id, unit] of before) if (!written.current.has(id)) keepDraft(idOf(unit), null);
    forgetOnlyDraft();
  }, [open]);
};
