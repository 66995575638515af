import { useCallback, useEffect, useState } from 'react';
import type { CaseFile, CasePhoto } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { SheetId } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { endOfDay } from './sayCase.ts';

export interface CaseState {
  readonly file: CaseFile | null;
  readonly trouble: Trouble | null;
  /** The day it is shown as of (`YYYY-MM-DD`), or null for today. */
  readonly day: string | null;
  showAsOf(day: string | null): void;
  /** What the desk answered to a change takes the place of what is shown. */
  put(file: CaseFile): void;
  putPhotos(photos: readonly CasePhoto[]): void;
}

/** The case on the page, as it stands or as it stood at the end of a day. `version` changes when the sheet is saved, and the case with it. */
export function useCase(sheet: SheetId, version: unknown): CaseState {
  const [file, setFile] = useState<CaseFile | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [day, setDay] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `version` stands for the saved sheet, which is asked for anew when it changes.
  useEffect(() => {
    let current = true;
    void desk.ask('cases.open', { sheet, asOf: day === null ? null : endOfDay(day) }).then((reply) => {
      if (!current) return;
      setTrouble(reply.ok ? null : reply.trouble);
      if (reply.ok) setFile(reply.value);
    });
    return () => {
      current = false;
    };
  }, [sheet, day, version]);
  const put = useCallback((next: CaseFile) => setFile(next), []);
  const putPhotos = useCallback((photos: readonly CasePhoto[]) => setFile((now) => (now === null ? now : { ...now, photos })), []);
  return { file, trouble, day, showAsOf: setDay, put, putPhotos };
}
