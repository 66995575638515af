import { type Dispatch, type RefObject, useCallback, useEffect, useState } from 'react';
import type { OpenedSheet, SavedSheet } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { desk } from '../bridge/desk.ts';
import { type Kept, keptOf, type Unit, type UnitAction } from './unit.ts';
import { whoLooks } from './useWho.ts';

/** What a save met that was made of another state than the one that is there (H5). */
export type Met =
  | { readonly how: 'changed'; readonly theirs: OpenedSheet }
  /** `sample`: the sample that shows again in its place; saving makes a case of it anew. */
  | { readonly how: 'removed'; readonly sample: OpenedSheet | null };

/** What somebody decided who was told. */
export type Settled =
  | { readonly how: 'save'; readonly sheet: Sheet; readonly over: OpenedSheet }
  | { readonly how: 'take theirs'; readonly theirs: OpenedSheet }
  | { readonly how: 'save anew'; readonly sample: OpenedSheet | null }
  | { readonly how: 'later' };

export interface SavingHeld {
  /** Tells whether it was kept. */
  readonly save: () => Promise<boolean>;
  /** Another state is stored than the one this was made of, and nothing was saved yet: told when the window is come back to. Null while none is known. */
  readonly elsewhere: Met | null;
  /** Shows both. */
  readonly seeBoth: () => void;
  /** Null while nothing is to be decided. */
  readonly met: Met | null;
  readonly settleMet: (settled: Settled) => void;
}

type Saved =
  | { readonly state: 'saved' }
  | { readonly state: 'met'; readonly met: Met }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

/**
 * Saves the sheet on the bench against the state it was made of. Where another is there, nothing is saved again by itself: the draft stays as it is, and what was met waits to be
 * decided.
 */
export const useSaving = (now: RefObject<Unit>, dispatch: Dispatch<UnitAction>): SavingHeld => {
  const [met, setMet] = useState<Met | null>(null);
  const [elsewhere, setElsewhere] = useState<{ readonly kept: Kept; readonly met: Met } | null>(null);

  const saveAgainst = useCallback(
    async (sheet: Sheet, kept: Kept | null): Promise<boolean> => {
      dispatch({ do: 'saving' });
      const put = async (against: Kept | null): Promise<Saved> => {
        const reply = await desk.ask('sheets.save', { sheet, who: whoLooks(), madeAgainst: against?.version ?? null });
        if (reply.ok) {
          dispatch({ do: 'saved', kept: savedAs(sheet, reply.value), at: reply.value.savedAt });
          return { state: 'saved' };
        }
        if (reply.trouble.code !== 'changed-since') return { state: 'trouble', trouble: reply.trouble };
        return whatIsThere(sheet, against);
      };
      let saved = await put(kept);
      // It reads as it did when this was made of it: only the version was not known, as with a draft of an earlier program. Once; what comes between is told.
      if (saved.state === 'met' && saved.met.how === 'changed' && kept !== null && sameValue(saved.met.theirs.sheet, kept.sheet))
        saved = await put(keptOf(saved.met.theirs));
      if (saved.state === 'trouble') dispatch({ do: 'not saved', trouble: saved.trouble });
      if (saved.state === 'met') {
        dispatch({ do: 'not saved', trouble: toldOf(saved.met) });
        setMet(saved.met);
      }
      return saved.state === 'saved';
    },
    [dispatch],
  );

  const save = useCallback(() => saveAgainst(now.current.history.present, now.current.kept), [now, saveAgainst]);

  // Whoever comes back to a window is told before he types more into a sheet that was saved elsewhere meanwhile.
  useEffect(() => {
    const look = () => {
      const { kept, saving, history } = now.current;
      if (kept === null || saving.state === 'saving') return;
      void whatIsThere(history.present, kept).then((there) => {
        // What is there may have been saved here meanwhile.
        if (there.state !== 'met' || now.current.kept !== kept) return;
        const as = there.met.how === 'changed' && there.met.theirs.version === kept.version;
        setElsewhere(as ? null : { kept, met: there.met });
      });
    };
    window.addEventListener('focus', look);
    return () => window.removeEventListener('focus', look);
  }, [now]);

  const settleMet = useCallback(
    (settled: Settled) => {
      setMet(null);
      switch (settled.how) {
        case 'save': {
          const kept = keptOf(settled.over);
          dispatch({ do: 'join', sheet: settled.sheet, kept });
          void saveAgainst(settled.sheet, kept);
          break;
        }
        case 'take theirs':
          dispatch({ do: 'join', sheet: settled.theirs.sheet, kept: keptOf(settled.theirs) });
          break;
        case 'save anew':
          void saveAgainst(now.current.history.present, settled.sample === null ? null : keptOf(settled.sample));
          break;
        case 'later':
      }
    },
    [now, dispatch, saveAgainst],
  );
  const known = elsewhere !== null && elsewhere.kept === now.current.kept ? elsewhere.met : null;
  return { save, met, settleMet, elsewhere: known, seeBoth: () => setMet(known) };
};

const savedAs = (sheet: Sheet, { version, number }: SavedSheet): Kept => ({ sheet, version, own: true, number });

/** Whether what is there was changed or is gone. */
const whatIsThere = async (sheet: Sheet, against: Kept | null): Promise<Saved> => {
  const reply = await desk.ask('sheets.open', { id: sheet.id });
  if (!reply.ok) {
    if (reply.trouble.code !== 'not-found') return { state: 'trouble', trouble: reply.trouble };
    return { state: 'met', met: { how: 'removed', sample: null } };
  }
  const gone = against?.own === true && reply.value.saved === null;
  return { state: 'met', met: gone ? { how: 'removed', sample: reply.value } : { how: 'changed', theirs: reply.value } };
};

const toldOf = ({ how }: Met): Trouble => ({
  code: 'changed-since',
  place: null,
  sentence:
    how === 'removed'
      ? 'The sheet was removed elsewhere since it was opened here. Save it again to decide whether it shall be there.'
      : 'The sheet was changed elsewhere since it was opened here. Save it again to see both and decide.',
});
