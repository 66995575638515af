import { createContext, useContext, useState } from 'react';
import type { ChangeMade, Edit } from '../../db/answers.ts';
import type { CallArgs, Trouble } from '../../electron/bridge/contract.ts';
import { useWho } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import type { Looked } from './useLook.ts';

export interface Making {
  readonly who: string;
  readonly why: string;
  readonly from: string;
  /** What was made last, until something else is. */
  readonly made: ChangeMade | null;
  /** The place of the form that shows what was made: it stands there when one comes back to it. */
  readonly madeAt: string | null;
  readonly undone: boolean;
  readonly trouble: Trouble | null;
  readonly busy: boolean;
  say(words: Partial<Pick<Making, 'who' | 'why' | 'from'>>): void;
  /** Makes the edits against what was looked at; tells whether they were made. */
  make(edits: readonly Edit[], looked: Looked, at: string): Promise<boolean>;
  undo(): Promise<void>;
}

type State = Pick<Making, 'made' | 'madeAt' | 'undone' | 'trouble' | 'busy'>;

/** It stands while somebody looks elsewhere in the window. */
let last: State = { made: null, madeAt: null, undone: false, trouble: null, busy: false };

/** Making a change, and taking it back at once. Who makes it is remembered on this computer. */
export const useMaking = (): Making => {
  const [who, setWho] = useWho();
  const [said, setSaid] = useState({ why: '', from: '' });
  const [state, setHere] = useState(last);
  const setState = (next: (before: State) => State) => {
    last = next(last);
    setHere(last);
  };
  return {
    who,
    ...said,
    ...state,
    say: ({ who: by, ...rest }) => {
      if (by !== undefined) setWho(by);
      setSaid((before) => ({ ...before, ...rest }));
    },
    make: async (edits, { seen }, at) => {
      if (seen === null || seen.faults.length > 0 || edits.length === 0 || state.busy) return false;
      setState((before) => ({ ...before, busy: true, trouble: null }));
      const reply = await desk.ask('changes.make', {
        edits: [...edits] as CallArgs<'changes.make'>['edits'],
        who: who.trim(),
        why: said.why.trim(),
        source: said.from.trim(),
        head: seen.head,
      });
      setState((before) =>
        reply.ok
          ? { made: reply.value, madeAt: at, undone: false, trouble: null, busy: false }
          : { ...before, trouble: reply.trouble, busy: false },
      );
      if (reply.ok) setSaid({ why: '', from: '' });
      return reply.ok;
    },
    undo: async () => {
      const { made } = state;
      if (made === null || made.change === null || state.busy) return;
      setState((before) => ({ ...before, busy: true, trouble: null }));
      const reply = await desk.ask('changes.undo', {
        change: made.change,
        rest: false,
        who: who.trim(),
        why: 'Taken back at once.',
        head: made.head,
      });
      setState((before) =>
        reply.ok ? { ...before, made: reply.value, undone: true, busy: false } : { ...before, trouble: reply.trouble, busy: false },
      );
    },
  };
};

export const MakingContext = createContext<Making | null>(null);

/** The same for every form of the screen, so that what was made can be taken back from wherever it is shown. */
export const useMakingHere = (): Making => {
  const making = useContext(MakingContext);
  if (making === null) throw new Error('forms stand in the screen that edits');
  return making;
};
