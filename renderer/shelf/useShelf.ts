import { type Dispatch, type SetStateAction, useCallback, useEffect, useState } from 'react';
import type { CaseSummary, OpenedSheet, SheetSummary, Version } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { useBenchActions, useOpenUnits } from '../bench/BenchContext.ts';
import { fileNameOf } from '../bench/fileNameOf.ts';
import { newSheetId } from '../bench/sheetEdits.ts';
import { desk } from '../bridge/desk.ts';
import { giveFile } from '../look/giveFile.ts';
import { goTo, type Route } from '../route/route.ts';

/** A sheet as a row of either list names it. */
export type Listed = Pick<SheetSummary, 'id' | 'title' | 'kind'>;

/** What is asked before something is done for good. */
export type Question =
  /** `stored`: what would be removed, as it is now; `stale` where it is not what the list or the bench has shown. */
  | { readonly about: 'remove'; readonly one: CaseSummary; readonly stored: OpenedSheet; readonly stale: boolean }
  | { readonly about: 'same id'; readonly sheet: Sheet };

export interface Shelf {
  /** Null until they are fetched. */
  readonly sheets: readonly SheetSummary[] | null;
  readonly trouble: { readonly lead: string; readonly trouble: Trouble } | null;
  readonly question: Question | null;
  /** What was done last, in words. */
  readonly said: string;
  readonly say: Dispatch<SetStateAction<string>>;
  ask(question: Question | null): void;
  putOnBench(sheet: Sheet, stored: OpenedSheet | null): void;
  open(one: Listed): Promise<void>;
  copy(one: Listed): Promise<void>;
  /** Into a file. */
  write(one: Listed): Promise<void>;
  /** Asks before a case is removed, of what is there now. */
  askToRemove(one: CaseSummary): Promise<void>;
  /** `whole`: the version of what was shown when it was decided. */
  remove(one: CaseSummary, whole: Version): Promise<void>;
  /** What a file holds takes the place of the sheet of its id, once it is saved. */
  putInPlace(sheet: Sheet): Promise<void>;
  /** Out of a file; asks where a sheet of that id is on the shelf. */
  read(picked: File): Promise<void>;
}

/** The sheets on the shelf and what can be done with one. `who` is who looks, kept with a copy. */
export function useShelf(who: string): Shelf {
  const { units } = useOpenUnits();
  const { takeUp, turnTo, openUnit, keptNoMore } = useBenchActions();
  const [sheets, setSheets] = useState<readonly SheetSummary[] | null>(null);
  const [trouble, setTrouble] = useState<{ readonly lead: string; readonly trouble: Trouble } | null>(null);
  const [question, setQuestion] = useState<Question | null>(null);
  const [said, say] = useState('');

  const list = useCallback(async () => {
    const reply = await desk.ask('sheets.list', {});
    if (reply.ok) setSheets(reply.value);
    else setTrouble({ lead: 'The sheets could not be listed.', trouble: reply.trouble });
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is open reads otherwise once it is saved, and so does the list.
  useEffect(() => {
    void list();
  }, [list, units]);

  const putOnBench = (sheet: Sheet, stored: OpenedSheet | null) => {
    takeUp(sheet, stored);
    goTo(placeOf(sheet.kind));
  };
  const opened = async (id: SheetId, lead: string): Promise<OpenedSheet | null> => {
    const reply = await desk.ask('sheets.open', { id });
    if (reply.ok) return reply.value;
    setTrouble({ lead, trouble: reply.trouble });
    return null;
  };
  const open = async (one: Listed) => {
    if (openUnit(one.id) !== null) return turnTo(one.id);
    const stored = await opened(one.id, 'The sheet could not be opened.');
    if (stored !== null) putOnBench(stored.sheet, stored);
  };
  const copy = async (one: Listed) => {
    const stored = await opened(one.id, 'The sheet could not be copied.');
    if (stored === null) return;
    const reply = await desk.ask('sheets.save', {
      sheet: { ...stored.sheet, id: newSheetId(), title: `Copy of ${stored.sheet.title}`.slice(0, 300) },
      who,
      madeAgainst: null,
    });
    if (!reply.ok) return setTrouble({ lead: 'The copy could not be saved.', trouble: reply.trouble });
    say(`Copied as “${reply.value.title}”.`);
    await list();
  };
  const write = async (one: Listed) => {
    const sheet = openUnit(one.id)?.history.present ?? (await opened(one.id, 'The sheet could not be read.'))?.sheet;
    if (sheet === undefined) return;
    const reply = await desk.ask('sheets.write', { sheet });
    if (!reply.ok) return setTrouble({ lead: 'The file could not be written.', trouble: reply.trouble });
    giveFile(fileNameOf(sheet), reply.value);
    say(`Written: ${fileNameOf(sheet)}.`);
  };
  const askToRemove = async (one: CaseSummary) => {
    setTrouble(null);
    const stored = await opened(one.sheet, 'The sheet could not be removed.');
    if (stored === null) return;
    const kept = openUnit(one.sheet)?.kept ?? null;
    const openedBefore = kept !== null && kept.version !== stored.version;
    setQuestion({ about: 'remove', one, stored, stale: openedBefore || !isAsListed(one, stored) });
  };
  const remove = async (one: CaseSummary, whole: Version) => {
    setQuestion(null);
    const reply = await desk.ask('sheets.remove', { id: one.sheet, madeAgainst: whole });
    // Somebody was quicker than the answer to the question: it is asked again, of what is there now.
    if (!reply.ok && reply.trouble.code === 'changed-since') {
      const stored = await opened(one.sheet, 'The sheet was not removed.');
      return stored === null ? undefined : setQuestion({ about: 'remove', one, stored, stale: true });
    }
    if (!reply.ok) return setTrouble({ lead: 'The sheet could not be removed.', trouble: reply.trouble });
    keptNoMore(one.sheet);
    say(`Removed: ${titleOf(one.title)}.`);
    await list();
  };
  const putInPlace = async (sheet: Sheet) => {
    const reply = await desk.ask('sheets.open', { id: sheet.id });
    putOnBench(sheet, reply.ok ? reply.value : null);
  };
  const read = async (picked: File) => {
    setTrouble(null);
    const reply = await desk.ask('sheets.read', { text: await picked.text(), file: picked.name });
    if (!reply.ok) return setTrouble({ lead: 'The file could not be read as a sheet.', trouble: reply.trouble });
    if (sheets?.some(({ id }) => id === reply.value.id)) setQuestion({ about: 'same id', sheet: reply.value });
    else putOnBench(reply.value, null);
  };
  return { sheets, trouble, question, said, say, ask: setQuestion, putOnBench, open, copy, write, askToRemove, remove, putInPlace, read };
}

/** Whether a sheet is still what its line in the list says. */
const isAsListed = (one: CaseSummary, { sheet, saved }: OpenedSheet): boolean =>
  saved !== null &&
  saved.at <= one.savedAt &&
  sheet.title === one.title &&
  sheet.claimed === one.claimed &&
  sheet.observations.length === one.observations;

export const titleOf = (title: string): string => (title === '' ? 'untitled unit' : title);

/** A found unit is looked at as a unit; a build on paper is judged on the build bench. */
const placeOf = (kind: Sheet['kind']): Route => (kind === 'planned' ? { screen: 'build', place: 'bench' } : { screen: 'unit' });
