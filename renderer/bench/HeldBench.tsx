import { type ReactNode, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { OpenedSheet } from '../../db/answers.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { at } from '../look/landmarks.ts';
import { goTo, type Screen, useScreen } from '../route/route.ts';
import {
  type Bench,
  type BenchActions,
  BenchActionsContext,
  BenchContext,
  type EntryPlace,
  type OpenUnit,
  type OpenUnits,
  OpenUnitsContext,
} from './BenchContext.ts';
import { type Benches, hasRoom, type Kind, mostOpen, named, openWith, shownOf } from './benches.ts';
import { MetDialog } from './MetDialog.tsx';
import { titleOf } from './titleOf.ts';
import { idOf, isBlank, isUnsaved, type Unit } from './unit.ts';
import { useBenches } from './useBenches.ts';
import { useBenchKeys } from './useBenchKeys.ts';
import { type OpenNow, useSaving } from './useSaving.ts';

/** A sheet there is no room for. */
interface Waiting {
  readonly sheet: Sheet;
  readonly stored: OpenedSheet | null;
}

/** Holds the open units for everything in the window. It renders with every entry and what it holds does not: only who reads the unit that is shown does. */
export function HeldBench({ children }: { readonly children: ReactNode }) {
  const screen = useScreen();
  const { benches, now, act } = useBenches();
  const [waiting, setWaiting] = useState<Waiting | null>(null);
  const [closing, setClosing] = useState<SheetId | null>(null);
  const [entering, setEntering] = useState<{ readonly of: SheetId; readonly place: EntryPlace } | null>(null);
  const unit = shownAt(benches, screen);
  const id = idOf(unit);
  const shown = useRef({ id, screen });
  shown.current = { id, screen };
  const kind = kindAt(screen);
  useEffect(() => {
    if (kind !== null && unit.history.present.kind === kind) act({ do: 'look at', kind });
  }, [kind, unit.history.present.kind, act]);
  useHeldWindow(benches.open.some(isUnsaved));

  const open = useMemo<OpenNow>(() => ({ all: () => now().open, tell: (of, told) => act({ do: 'to', id: of, act: told }) }), [now, act]);
  const { save, settle, look } = useSaving(open);
  const led = useLedFocus(id);

  const actions = useMemo<BenchActions>(() => {
    const tell: (told: Parameters<OpenNow['tell']>[1]) => void = (told) => open.tell(shown.current.id, told);
    const turnTo = (to: SheetId) => {
      const next = openWith(now(), to);
      if (next === undefined) return;
      setEntering(null);
      led.current = true;
      act({ do: 'turn to', id: to });
      goToItsScreen(next.history.present.kind, shown.current.screen);
      look(to);
    };
    return {
      edit: (edit, typing) => tell({ do: 'edit', edit, typing: typing ?? null }),
      openEntry: (place) => setEntering(place === null ? null : { of: shown.current.id, place }),
      undo: () => tell({ do: 'undo' }),
      redo: () => tell({ do: 'redo' }),
      save: () => save(shown.current.id),
      seeBoth: () => tell({ do: 'see both' }),
      takeUp: (sheet, stored) => {
        setEntering(null);
        if (hasRoom(now(), sheet)) act({ do: 'take up', sheet, stored });
        else setWaiting({ sheet, stored });
      },
      turnTo,
      step: (by) => {
        const all = named(now(), shown.current.id).map(idOf);
        const to = all[(all.indexOf(shown.current.id) + by + all.length) % all.length];
        if (to !== undefined && all.length > 1) turnTo(to);
      },
      close: (which) => {
        const one = openWith(now(), which);
        if (one === undefined) return;
        if (isUnsaved(one)) {
          if (which !== shown.current.id) turnTo(which);
          setClosing(which);
        } else {
          led.current = which === shown.current.id;
          act({ do: 'close', ids: [which] });
        }
      },
      openUnit: (of) => openWith(now(), of) ?? null,
      keptNoMore: (of) => open.tell(of, { do: 'kept no more' }),
    };
  }, [open, now, act, save, look, led]);
  useBenchKeys(actions, isUnsaved(unit));

  const bench = useMemo<Bench>(
    () => ({
      unit,
      sheet: unit.history.present,
      unsaved: isUnsaved(unit),
      entering: entering?.of === idOf(unit) ? entering.place : null,
      elsewhere: unit.elsewhere?.how ?? null,
    }),
    [unit, entering],
  );
  const units = useOpenList(benches, id);

  const close = useCallback(
    async (which: SheetId, how: 'save' | 'drop') => {
      setClosing(null);
      if (how === 'save' && !(await save(which))) return;
      led.current = true;
      act({ do: 'close', ids: [which] });
    },
    [save, act, led],
  );
  const makeRoom = ({ sheet, stored }: Waiting) => {
    setWaiting(null);
    act({ do: 'close', ids: saved(benches) });
    act({ do: 'take up', sheet, stored });
  };

  return (
    <BenchActionsContext value={actions}>
      <OpenUnitsContext value={units}>
        <BenchContext value={bench}>
          {children}
          {unit.asks !== null && <MetDialog key={id} met={unit.asks} unit={unit} onSettle={(settled) => settle(id, settled)} />}
          {closing !== null && closing === id && (
            <AskDialog
              title="Save it before it is closed?"
              onLeave={() => setClosing(null)}
              choices={[
                { label: 'Save it, then close', tone: 'main', run: () => void close(closing, 'save') },
                { label: 'Close without saving', tone: 'danger', run: () => void close(closing, 'drop') },
              ]}
            >
              <p>
                <b>{titleOf(unit.history.present)}</b> has entries that are not saved.
              </p>
            </AskDialog>
          )}
          {waiting !== null && (
            <AskDialog
              title={`${mostOpen} are open`}
              onLeave={() => setWaiting(null)}
              choices={
                saved(benches).length === 0
                  ? []
                  : [{ label: 'Close those that are saved, and open it', tone: 'main', run: () => makeRoom(waiting) }]
              }
            >
              <p>
                No more than {mostOpen} units and builds can be open at once. Close one of them, then open <b>{titleOf(waiting.sheet)}</b>{' '}
                again.
              </p>
            </AskDialog>
          )}
        </BenchContext>
      </OpenUnitsContext>
    </BenchActionsContext>
  );
}

const saved = ({ open }: Benches): readonly SheetId[] => open.filter((one) => !isUnsaved(one) && !isBlank(one)).map(idOf);

const kindAt = ({ screen }: Screen): Kind | null =>
  screen === 'unit' || screen === 'report' ? 'found' : screen === 'build' ? 'planned' : null;

/** Each screen shows the unit of its kind that was shown last; a case file that of its sheet; where builds are made and none is open, there is nothing to show but the unit. */
const shownAt = (benches: Benches, screen: Screen): Unit =>
  (screen.screen === 'case' ? openWith(benches, screen.sheet) : undefined) ??
  shownOf(benches, kindAt(screen) ?? benches.kind) ??
  shownOf(benches, 'found');

const goToItsScreen = (kind: Kind, from: Screen): void => {
  if (kindAt(from) !== kind) goTo(kind === 'planned' ? { screen: 'build', place: 'bench' } : { screen: 'unit' });
};

/** Only in a browser: Electron would hold the window without a word, and there the drafts come back at the next start. */
const useHeldWindow = (unsaved: boolean): void =>
  useEffect(() => {
    if (!unsaved || !window.location.protocol.startsWith('http')) return;
    const hold = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener('beforeunload', hold);
    return () => window.removeEventListener('beforeunload', hold);
  }, [unsaved]);

/** Whoever turns to another unit, or closes one, is led to its name in the strip; where there is none any more, to the first thing to be entered. */
const useLedFocus = (shown: SheetId) => {
  const led = useRef(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the focus is led whenever another is shown.
  useEffect(() => {
    if (!led.current) return;
    led.current = false;
    requestAnimationFrame(() => document.querySelector<HTMLElement>(`${at('shown unit')}, ${at('add a feature', 'input')}`)?.focus());
  }, [shown]);
  return led;
};

const listed = (unit: Unit): OpenUnit => {
  const { id, title, kind } = unit.history.present;
  const elsewhere = unit.elsewhere !== null || unit.asks !== null || unit.saving.state === 'trouble';
  return { id, title, kind, number: unit.kept?.number ?? null, unsaved: isUnsaved(unit), elsewhere };
};

/** The same list for as long as it reads the same: an entry in one of them is none of its business. */
const useOpenList = (benches: Benches, shown: SheetId): OpenUnits => {
  const next = { units: named(benches, shown).map(listed), shown };
  const held = useRef<OpenUnits>(next);
  if (!sameValue(held.current, next)) held.current = next;
  return held.current;
};
