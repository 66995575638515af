import { useCallback, useEffect, useMemo, useReducer, useRef, useState } from 'react';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { whoLooks } from '../cases/useWho.ts';
import { recall, remember } from '../look/preference.ts';
import { asId } from '../route/asId.ts';
import type { EntryPlace } from './openEntry.ts';
import { blankSheet } from './sheetEdits.ts';
import type { Bench } from './UnitContext.ts';
import { isUnsaved, type Unit, unitAfter, unitOf } from './unit.ts';

export const newSheetId = (): SheetId => asId<SheetId>(`sheet-${crypto.randomUUID()}`);

/** A sheet that waits for the question "save what is on the bench first?". */
export interface Waiting {
  readonly sheet: Sheet;
  readonly kept: boolean;
}

export interface BenchState {
  readonly bench: Bench;
  readonly waiting: Waiting | null;
  settle(how: 'save' | 'drop' | 'stay'): Promise<void>;
}

/**
 * Holds the unit on the bench. Unsaved entries are also kept as a draft on this computer with every change, so a window
 * that is lost loses nothing typed; the draft goes when the sheet is saved or dropped.
 */
export function useBenchState(): BenchState {
  const [unit, dispatch] = useReducer(unitAfter, undefined, atStart);
  // Read before the effect below writes it.
  const [last] = useState(() => recall('last sheet'));
  const [waiting, setWaiting] = useState<Waiting | null>(null);
  const [entering, openEntry] = useState<EntryPlace | null>(null);
  const unsaved = isUnsaved(unit);
  const sheet = unit.history.present;
  // What an asynchronous save must compare with when it comes back.
  const now = useRef(unit);
  now.current = unit;

  useEffect(() => {
    remember('draft', unsaved ? JSON.stringify({ sheet, kept: unit.kept }) : null);
    remember('last sheet', unit.kept?.id ?? null);
  }, [sheet, unit.kept, unsaved]);

  useEffect(() => {
    // Only in a browser: Electron would hold the window without a word, and there the draft comes back at the next start.
    if (!unsaved || !window.location.protocol.startsWith('http')) return;
    const hold = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener('beforeunload', hold);
    return () => window.removeEventListener('beforeunload', hold);
  }, [unsaved]);

  // The sheet that was last on the bench comes back, unless a draft already did.
  useEffect(() => {
    if (last === null || now.current.kept !== null || isUnsaved(now.current)) return;
    void desk.ask('sheets.open', { id: asId<SheetId>(last) }).then((reply) => {
      if (reply.ok && !isUnsaved(now.current) && now.current.kept === null)
        dispatch({ do: 'take up', sheet: reply.value, kept: reply.value });
    });
  }, [last]);

  const save = useCallback(async (): Promise<boolean> => {
    const saved = now.current.history.present;
    dispatch({ do: 'saving' });
    const reply = await desk.ask('sheets.save', { sheet: saved, who: whoLooks() });
    if (reply.ok) dispatch({ do: 'saved', sheet: saved, at: reply.value.savedAt });
    else dispatch({ do: 'not saved', trouble: reply.trouble });
    return reply.ok;
  }, []);

  const put = useCallback((next: Waiting) => {
    openEntry(null);
    dispatch({ do: 'take up', sheet: next.sheet, kept: next.kept ? next.sheet : null });
  }, []);

  const takeUp = useCallback(
    (next: Sheet, kept: boolean) => {
      if (isUnsaved(now.current)) setWaiting({ sheet: next, kept });
      else put({ sheet: next, kept });
    },
    [put],
  );

  const settle = useCallback(
    async (how: 'save' | 'drop' | 'stay') => {
      if (how === 'save' && !(await save())) {
        setWaiting(null);
        return;
      }
      if (how !== 'stay' && waiting !== null) put(waiting);
      setWaiting(null);
    },
    [put, save, waiting],
  );

  const bench = useMemo<Bench>(
    () => ({
      unit,
      sheet,
      unsaved,
      edit: (edit, typing) => dispatch({ do: 'edit', edit, typing: typing ?? null }),
      entering,
      openEntry,
      undo: () => dispatch({ do: 'undo' }),
      redo: () => dispatch({ do: 'redo' }),
      save,
      takeUp,
      keptNoMore: () => dispatch({ do: 'kept no more' }),
    }),
    [unit, sheet, unsaved, entering, save, takeUp],
  );

  return { bench, waiting, settle };
}

function atStart(): Unit {
  const draft = recall('draft');
  if (draft !== null) {
    try {
      const { sheet, kept } = JSON.parse(draft) as { sheet: Sheet; kept: Sheet | null };
      if (Array.isArray(sheet.observations) && typeof sheet.id === 'string') return unitOf(sheet, kept, true);
    } catch {
      // A draft that cannot be read is left where it is not in the way; the next one overwrites it.
    }
  }
  return unitOf(blankSheet(newSheetId()), null);
}
