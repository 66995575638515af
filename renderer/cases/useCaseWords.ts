import { useCallback, useEffect, useRef, useState } from 'react';
import type { CaseDetails, CaseFile, Version } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { fieldsMerged } from '../../reasoner/plain/fields-merged.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { windowName } from '../bench/thisWindow.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { recall, remember } from '../look/preference.ts';

/** What stands beside the sheet, and the version saving it is made against (H5). */
interface Kept {
  readonly words: CaseDetails;
  readonly version: Version;
}

/** Others wrote what was written here too, and somebody has to choose. */
export interface MetWords {
  readonly base: CaseDetails;
  readonly there: CaseFile;
}

export interface CaseWords {
  readonly typed: CaseDetails;
  readonly setTyped: (words: CaseDetails) => void;
  readonly unsaved: boolean;
  readonly state: 'rest' | 'saving' | 'saved';
  /** Fields that were written elsewhere meanwhile and stand beside what was saved here. */
  readonly joined: readonly (keyof CaseDetails)[];
  readonly trouble: Trouble | null;
  readonly met: MetWords | null;
  readonly save: () => void;
  readonly settle: (settled: { readonly how: 'save'; readonly words: CaseDetails } | { readonly how: 'take theirs' | 'later' }) => void;
}

/** So often a save is joined with what came in between, before it is told as trouble. */
const mostTries = 3;

/**
 * The words of a case as they are typed. They are saved against the words they were made of; where others have written other fields meanwhile, both are kept, and where they have
 * written the same ones, nothing is saved until somebody has chosen. What is typed and not saved is kept on this computer, and comes back with the case.
 */
export const useCaseWords = (file: CaseFile, past: boolean, onSaved: (file: CaseFile) => void): CaseWords => {
  const draft = `words ${windowName()} ${file.sheet}`;
  const [begun] = useState(() => (past ? null : draftIn(recall(draft))));
  const [typed, setTyped] = useState<CaseDetails>(begun?.typed ?? wordsOf(file));
  const [kept, setKept] = useState<Kept>(begun?.kept ?? keptIn(file));
  const [state, setState] = useState<'rest' | 'saving' | 'saved'>('rest');
  const [joined, setJoined] = useState<readonly (keyof CaseDetails)[]>([]);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [met, setMet] = useState<MetWords | null>(null);
  // `again`: a field was left while another was being saved. `gone`: the page was left.
  const now = useRef({ typed, kept, met, saving: false, again: false, gone: false });
  const [round, setRound] = useState(0);
  now.current = { ...now.current, typed, kept, met };
  const unsaved = !past && !sameValue(typed, kept.words);

  useEffect(() => {
    if (!past) remember(draft, unsaved ? JSON.stringify({ typed, kept } satisfies Draft) : null);
  }, [draft, past, unsaved, typed, kept]);

  const saveAgainst = useCallback(
    async (words: CaseDetails, against: Kept, tries = 1, beside: readonly (keyof CaseDetails)[] = []): Promise<Kept | null> => {
      const reply = await desk.ask('cases.describe', { sheet: file.sheet, ...words, who: whoLooks(), madeAgainst: against.version });
      if (reply.ok) {
        const there = keptIn(reply.value);
        // What was typed while it was on its way stays typed.
        setTyped((is) => typedOver(against.words, is, there.words));
        setKept(there);
        setTrouble(null);
        setJoined(beside);
        setState('saved');
        onSaved(reply.value);
        return there;
      }
      setState('rest');
      if (reply.trouble.code !== 'changed-since' || tries >= mostTries) {
        setTrouble(reply.trouble);
        return null;
      }
      const opened = await desk.ask('cases.open', { sheet: file.sheet });
      if (!opened.ok) {
        setTrouble(opened.trouble);
        return null;
      }
      const there = keptIn(opened.value);
      const { merged, differences } = fieldsMerged(against.words, words, there.words);
      if (differences.some(({ changed }) => changed === 'both')) {
        setTrouble(reply.trouble);
        setMet({ base: against.words, there: opened.value });
        return null;
      }
      const theirs = differences.filter(({ changed }) => changed === 'there').map(({ field }) => field);
      setTyped((is) => typedOver(against.words, is, there.words));
      setKept(there);
      return saveAgainst(merged, there, tries + 1, [...new Set([...beside, ...theirs])]);
    },
    [file.sheet, onSaved],
  );

  /** The page is left: what is refused now waits as a draft. */
  const saveLeaving = useCallback(
    (words: CaseDetails, against: Kept) => {
      const waiting = recall(draft);
      void desk.ask('cases.describe', { sheet: file.sheet, ...words, who: whoLooks(), madeAgainst: against.version }).then((reply) => {
        if (reply.ok && recall(draft) === waiting) remember(draft, null);
      });
    },
    [draft, file.sheet],
  );

  const save = useCallback(() => {
    const { typed: words, kept: against, met: open, saving } = now.current;
    if (saving) now.current.again = true;
    if (past || saving || open !== null || sameValue(words, against.words)) return;
    now.current.saving = true;
    setState('saving');
    void saveAgainst(words, against).then((there) => {
      now.current.saving = false;
      if (!now.current.gone) return setRound((before) => before + 1);
      if (there === null || sameValue(now.current.typed, words)) return;
      saveLeaving(typedOver(against.words, now.current.typed, there.words), there);
    });
  }, [past, saveAgainst, saveLeaving]);

  // Once what was saved is drawn: a field that was left meanwhile is saved now.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `round` says that a save has ended.
  useEffect(() => {
    if (!now.current.again) return;
    now.current.again = false;
    save();
  }, [round, save]);
  // What was left unsaved when the page was left, or the window closed, is saved as soon as the case is seen again.
  useEffect(() => {
    if (begun !== null) save();
  }, [begun, save]);
  // The page may be left by a key while a field still has the focus.
  useEffect(() => {
    now.current.gone = false;
    return () => {
      now.current.gone = true;
      const { typed: words, kept: against, met: open, saving } = now.current;
      if (!past && !saving && open === null && !sameValue(words, against.words)) saveLeaving(words, against);
    };
  }, [past, saveLeaving]);

  const settle: CaseWords['settle'] = (settled) => {
    if (met === null) return;
    setMet(null);
    if (settled.how === 'later') return;
    const there = keptIn(met.there);
    const words = settled.how === 'save' ? settled.words : there.words;
    setTrouble(null);
    setTyped(words);
    setKept(there);
    onSaved(met.there);
    if (sameValue(words, there.words)) return;
    setState('saving');
    void saveAgainst(words, there);
  };
  return { typed, setTyped, unsaved, state, joined, trouble, met, save, settle };
};

/** What is typed, over what was kept meanwhile. */
const typedOver = (base: CaseDetails, typed: CaseDetails, there: CaseDetails): CaseDetails =>
  fieldsMerged(base, typed, there, () => 'mine').merged;

interface Draft {
  readonly typed: CaseDetails;
  readonly kept: Kept;
}

const draftIn = (text: string | null): Draft | null => {
  if (text === null) return null;
  try {
    const { typed, kept } = JSON.parse(text) as Draft;
    return typeof kept.version === 'string' && typeof typed.notes === 'string' && typeof kept.words.notes === 'string'
      ? { typed, kept }
      : null;
  } catch {
    return null;
  }
};

export const wordsOf = ({ customer, lookedBy, notes }: CaseDetails): CaseDetails => ({ customer, lookedBy, notes });
const keptIn = (file: CaseFile): Kept => ({ words: wordsOf(file), version: file.version });
