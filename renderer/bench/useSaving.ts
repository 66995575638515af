import { useCallback, useEffect, useMemo } from 'react';
import type { OpenedSheet, SavedSheet } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { desk } from '../bridge/desk.ts';
import { idOf, type Kept, keptOf, type Met, type Unit, type UnitAction } from './unit.ts';
import { whoLooks } from './useWho.ts';

/** What somebody decided who was told. */
export type Settled =
  | { readonly how: 'save'; readonly sheet: Sheet; readonly over: OpenedSheet }
  | { readonly how: 'take theirs'; readonly theirs: OpenedSheet }
  | { readonly how: 'save anew'; readonly sample: OpenedSheet | null }
  | { readonly how: 'later' };

export interface Saving {
  /** Tells whether it was kept. */
  save(id: SheetId): Promise<boolean>;
  settle(id: SheetId, settled: Settled): void;
  /** Whether an open unit still is what is stored, as far as is known now. */
  look(id: SheetId): void;
}

/** The open units as they are at the moment, and what can be told of one. */
export interface OpenNow {
  all(): readonly Unit[];
  tell(id: SheetId, act: UnitAction): void;
}

type Saved =
  | { readonly state: 'saved' }
  | { readonly state: 'met'; readonly met: Met }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

/**
 * Saves a sheet against the state it was made of. Where another is there, nothing is saved again by itself: the draft stays as it is, and what was met waits to be decided. Whoever
 * comes back to the window is told of every open unit that was saved or removed elsewhere meanwhile, before he types more into it.
 */
export const useSaving = (now: OpenNow): Saving => {
  const saveAgainst = useCallback(
    async (sheet: Sheet, kept: Kept | null): Promise<boolean> => {
      const tell = (act: UnitAction) => now.tell(sheet.id, act);
      tell({ do: 'saving' });
      const put = async (against: Kept | null): Promise<Saved> => {
        const reply = await desk.ask('sheets.save', { sheet, who: whoLooks(), madeAgainst: against?.version ?? null });
        if (reply.ok) {
          tell({ do: 'saved', kept: savedAs(sheet, reply.value), at: reply.value.savedAt });
          return { state: 'saved' };
        }
        if (reply.trouble.code !== 'changed-since') return { state: 'trouble', trouble: reply.trouble };
        return whatIsThere(sheet.id, against);
      };
      let saved = await put(kept);
      // It reads as it did when this was made of it: only the version was not known, as with a draft of an earlier program. Once; what comes between is told.
      if (saved.state === 'met' && saved.met.how === 'changed' && kept !== null && sameValue(saved.met.theirs.sheet, kept.sheet))
        saved = await put(keptOf(saved.met.theirs));
      if (saved.state === 'trouble') tell({ do: 'not saved', trouble: saved.trouble });
      if (saved.state === 'met') tell({ do: 'met', met: saved.met });
      return saved.state === 'saved';
    },
    [now],
  );

  const look = useCallback(
    (id: SheetId) => {
      const unit = now.all().find((one) => idOf(one) === id);
      const against = unit?.kept ?? null;
      if (unit === undefined || against === null || unit.saving.state === 'saving') return;
      void whatIsThere(id, against).then((there) => {
        if (there.state !== 'met') return;
        const asKept = there.met.how === 'changed' && there.met.theirs.version === against.version;
        now.tell(id, { do: 'looked', against, there: asKept ? null : there.met });
      });
    },
    [now],
  );

  useEffect(() => {
    const lookAtAll = () => now.all().map(idOf).forEach(look);
    window.addEventListener('focus', lookAtAll);
    return () => window.removeEventListener('focus', lookAtAll);
  }, [now, look]);

  return useMemo<Saving>(() => {
    const at = (id: SheetId): Unit | undefined => now.all().find((one) => idOf(one) === id);
    return {
      look,
      save: async (id) => {
        const unit = at(id);
        return unit !== undefined && saveAgainst(unit.history.present, unit.kept);
      },
      settle: (id, settled) => {
        now.tell(id, { do: 'asked' });
        const unit = at(id);
        if (unit === undefined) return;
        switch (settled.how) {
          case 'save': {
            const kept = keptOf(settled.over);
            now.tell(id, { do: 'join', sheet: settled.sheet, kept });
            void saveAgainst(settled.sheet, kept);
            break;
          }
          case 'take theirs':
            now.tell(id, { do: 'join', sheet: settled.theirs.sheet, kept: keptOf(settled.theirs) });
            break;
          case 'save anew':
            void saveAgainst(unit.history.present, settled.sample === null ? null : keptOf(settled.sample));
            break;
          case 'later':
        }
      },
    };
  }, [now, look, saveAgainst]);
};

const savedAs = (sheet: Sheet, { version, number }: SavedSheet): Kept => ({ sheet, version, own: true, number });

/** Whether what is there was changed or is gone. */
const whatIsThere = async (id: SheetId, against: Kept | null): Promise<Saved> => {
  const reply = await desk.ask('sheets.open', { id });
  if (!reply.ok) {
    if (reply.trouble.code !== 'not-found') return { state: 'trouble', trouble: reply.trouble };
    return { state: 'met', met: { how: 'removed', sample: null } };
  }
  const gone = against?.own === true && reply.value.saved === null;
  return { state: 'met', met: gone ? { how: 'removed', sample: reply.value } : { how: 'changed', theirs: reply.value } };
};
