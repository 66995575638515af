import { type ReactNode, useCallback, useEffect, useMemo, useReducer, useRef, useState } from 'react';
import type { OpenedSheet } from '../../db/answers.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { blankSheet } from '../../reasoner/plain/blank-sheet.ts';
import { desk } from '../bridge/desk.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { recall, remember } from '../look/preference.ts';
import { asId } from '../route/asId.ts';
import { type Bench, type BenchActions, BenchActionsContext, BenchContext, type EntryPlace } from './BenchContext.ts';
import { keepDraft, recallDraft } from './draft.ts';
import { MetDialog } from './MetDialog.tsx';
import { newSheetId } from './sheetEdits.ts';
import { isUnsaved, keptOf, type Unit, unitAfter, unitOf } from './unit.ts';
import { useBenchKeys } from './useBenchKeys.ts';
import { useSaving } from './useSaving.ts';

/** A sheet that waits for the question "save what is on the bench first?". */
interface Waiting {
  readonly sheet: Sheet;
  readonly stored: OpenedSheet | null;
}

/**
 * Holds the unit on the bench for everything in it. It renders with every entry and what it holds does not: only who reads the bench does.
 * Another sheet is taken up only after the question whether what is not saved shall be.
 */
export function HeldBench({ children }: { readonly children: ReactNode }) {
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
    keepDraft(unsaved ? { sheet, kept: unit.kept } : null);
    remember('last sheet', unit.kept?.sheet.id ?? null);
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
        dispatch({ do: 'take up', sheet: reply.value.sheet, kept: keptOf(reply.value) });
    });
  }, [last]);

  const { save, met, settleMet, elsewhere, seeBoth } = useSaving(now, dispatch);
  const changed = elsewhere?.how ?? null;

  const put = useCallback((next: Waiting) => {
    openEntry(null);
    dispatch({ do: 'take up', sheet: next.sheet, kept: next.stored === null ? null : keptOf(next.stored) });
  }, []);

  const takeUp = useCallback(
    (next: Sheet, stored: OpenedSheet | null) => {
      if (isUnsaved(now.current)) setWaiting({ sheet: next, stored });
      else put({ sheet: next, stored });
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

  const latestSeeBoth = useRef(seeBoth);
  latestSeeBoth.current = seeBoth;

  const bench = useMemo<Bench>(() => ({ unit, sheet, unsaved, entering, elsewhere: changed }), [unit, sheet, unsaved, entering, changed]);
  const actions = useMemo<BenchActions>(
    () => ({
      edit: (edit, typing) => dispatch({ do: 'edit', edit, typing: typing ?? null }),
      openEntry,
      undo: () => dispatch({ do: 'undo' }),
      redo: () => dispatch({ do: 'redo' }),
      save,
      seeBoth: () => latestSeeBoth.current(),
      takeUp,
      keptNoMore: () => dispatch({ do: 'kept no more' }),
    }),
    [save, takeUp],
  );
  useBenchKeys(actions, unsaved);

  return (
    <BenchActionsContext value={actions}>
      <BenchContext value={bench}>
        {children}
        {met !== null && <MetDialog met={met} unit={unit} onSettle={settleMet} />}
        {waiting !== null && (
          <AskDialog
            title="Keep what is on the bench?"
            onLeave={() => void settle('stay')}
            choices={[
              { label: 'Save it, then go on', tone: 'main', run: () => void settle('save') },
              { label: 'Go on without saving', tone: 'danger', run: () => void settle('drop') },
            ]}
          >
            <p>
              <b>{sheet.title === '' ? 'The untitled unit' : sheet.title}</b> has entries that are not saved.
            </p>
          </AskDialog>
        )}
      </BenchContext>
    </BenchActionsContext>
  );
}

/** A draft comes back as it was; without one the bench begins with a blank sheet. */
const atStart = (): Unit => {
  const draft = recallDraft();
  return draft === null ? unitOf(blankSheet(newSheetId()), null) : unitOf(draft.sheet, draft.kept, true);
};
