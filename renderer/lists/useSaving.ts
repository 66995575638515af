import { useState } from 'react';
import type { Version } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { sayWhen } from '../values/sayWhen.ts';

/** Something of a list of the shop's, as it is kept. */
interface Kept {
  readonly version: Version;
  readonly at: string;
  readonly who: string;
}

interface Ways<Said, Held extends Kept> {
  save(
    said: Said,
    base: Held | null,
  ): Promise<{ readonly ok: true; readonly value: Held | null } | { readonly ok: false; readonly trouble: Trouble }>;
  /** What is there by now; null where nothing is. */
  there(base: Held | null): Promise<Held | null>;
  /** Null: it is off the list. */
  onSaved(held: Held | null): void;
}

export interface Saving<Said, Held extends Kept> {
  /** What it was last read as; null for a new one. */
  readonly base: Held | null;
  readonly trouble: Trouble | null;
  /** What somebody else made of it since. */
  readonly met: { readonly mine: Said; readonly there: Held } | null;
  rebase(base: Held | null): void;
  save(said: Said): Promise<void>;
  /** Saves over what was met, takes that, or leaves it for later. */
  settle(how: { readonly save: Said } | 'take theirs' | 'later'): void;
}

/** What is told and can be done where somebody else came between, whatever the fields are. @param did `changed this line` */
export const metBetween = <Said, Held extends Kept>({ settle }: Saving<Said, Held>, there: Held, did: string) => ({
  title: 'Written on elsewhere meanwhile',
  told: `${there.who || 'Somebody who did not say who'} ${did} ${sayWhen(there.at)}, after it was read here. Nothing was overwritten.`,
  onTake: () => settle('take theirs'),
  onLater: () => settle('later'),
});

/** Something of a list saved against what was read; where another is there by now, both are told (H5). */
export const useSaving = <Said, Held extends Kept>(read: Held | null, ways: Ways<Said, Held>): Saving<Said, Held> => {
  const [base, setBase] = useState(read);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [met, setMet] = useState<Saving<Said, Held>['met']>(null);
  const saveAgainst = async (said: Said, against: Held | null): Promise<void> => {
    setTrouble(null);
    const reply = await ways.save(said, against);
    if (reply.ok) return ways.onSaved(reply.value);
    const there = reply.trouble.code === 'changed-since' ? await ways.there(against) : null;
    if (there === null) setTrouble(reply.trouble);
    else setMet({ mine: said, there });
  };
  return {
    base,
    trouble,
    met,
    rebase: setBase,
    save: (said) => saveAgainst(said, base),
    settle: (how) => {
      setMet(null);
      if (met === null || how === 'later') return;
      if (how === 'take theirs') return ways.onSaved(met.there);
      setBase(met.there);
      void saveAgainst(how.save, met.there);
    },
  };
};
