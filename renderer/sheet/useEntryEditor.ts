import { type FormEvent, type KeyboardEvent, type RefObject, useEffect, useRef, useState } from 'react';
import type { Feature, Instrument, Observation, Slip } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { desk } from '../bridge/desk.ts';
import { entryIsThere, type Hold, holdKeys } from '../look/heldKeys.ts';
import { at } from '../look/landmarks.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { type Draft, draftOf, type Entry, entryOf } from './draft.ts';
import { confirmedAsBefore, isNumber, isUsual, saysTheSame } from './slips.ts';

interface Entering {
  readonly feature: Feature;
  /** The entry to change, or null for a new one. */
  readonly start: Observation | null;
  readonly unit: LengthUnit;
  readonly instruments: readonly Instrument[];
  onDone(entry: Entry): void;
  onLeave(): void;
}

export interface EntryEditor {
  readonly form: RefObject<HTMLFormElement | null>;
  readonly draft: Draft;
  /** Why it could not be taken. */
  readonly trouble: string | null;
  /** An entry that is hard to believe, and the question about it (O7). */
  readonly doubted: { readonly entry: Entry; readonly slip: Extract<Slip, { kind: 'implausible' }> } | null;
  change(part: Partial<Draft>): void;
  take(event: FormEvent): void;
  readAgain(): void;
  onKeyDown(event: KeyboardEvent): void;
}

/** What is typed into the editor of an entry, held to be believed before it is taken. Enter takes it, Escape leaves it. */
export function useEntryEditor({ feature, start, unit, instruments, onDone, onLeave }: Entering): EntryEditor {
  const [draft, setDraft] = useState<Draft>(() => draftOf(feature, start, unit, instruments));
  const [trouble, setTrouble] = useState<string | null>(null);
  const [doubted, setDoubted] = useState<EntryEditor['doubted']>(null);
  const { sheet } = useBench();
  /** Moves on with every change, so that an answer to what has changed since is dropped. */
  const asking = useRef(0);
  /** What is typed while the desk is asked is of the next entry, unless a question comes between. */
  const held = useRef<Hold | null>(null);
  /** What was asked about and is being read again, and whether anything was typed since: the same typed anew is the answer. */
  const readAnew = useRef<{ readonly value: Entry['value']; readonly typed: boolean } | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const change = (part: Partial<Draft>) => {
    asking.current += 1;
    if (readAnew.current !== null && part.text !== undefined) readAnew.current = { ...readAnew.current, typed: true };
    setDraft((before) => ({ ...before, ...part }));
    setTrouble(null);
    setDoubted(null);
  };

  useEffect(() => {
    const first =
      form.current?.querySelector<HTMLInputElement>(at('value', 'input:checked')) ??
      form.current?.querySelector<HTMLInputElement>(at('value', 'input'));
    first?.focus();
    first?.select();
    form.current?.scrollIntoView({ block: 'nearest' });
    entryIsThere(() => setTrouble('Typed before this was in sight. Look, then press Enter.'));
    return () => {
      asking.current += 1;
      held.current?.drop();
    };
  }, []);

  const ask = async (entry: Entry) => {
    asking.current += 1;
    const here = asking.current;
    const hold = holdKeys({
      for: 'answer',
      inSight: true,
      dropped: () => {
        held.current = null;
      },
    });
    held.current = hold;
    const reply = await desk.ask('entry.slip', { sheet, feature: feature.id, value: entry.value, sure: entry.sure, lengths: unit });
    if (asking.current !== here) return hold.drop();
    if (reply.ok && reply.value.kind === 'plausible') {
      // Ended before the editor is gone, which would drop it.
      held.current = null;
      onDone(entry);
      return hold.end();
    }
    hold.drop();
    if (!reply.ok) setTrouble(reply.trouble.sentence);
    else if (reply.value.kind === 'impossible') setTrouble(reply.value.sentence);
    else if (reply.value.kind === 'implausible') setDoubted({ entry, slip: reply.value });
  };
  const take = (event: FormEvent) => {
    event.preventDefault();
    const read = entryOf(feature, draft, unit);
    if (!read.ok) {
      setTrouble(read.sentence);
      return;
    }
    const entry = confirmedAsBefore(sheet, feature.id, read.value);
    const again = readAnew.current?.typed === true && saysTheSame(readAnew.current.value, entry.value);
    if (again) onDone({ ...entry, confirmed: true });
    else if (entry.confirmed === true || (isUsual(feature, entry) && !isNumber(feature, entry.value, entry.sure))) onDone(entry);
    else void ask(entry);
  };
  const readAgain = () => {
    readAnew.current = doubted === null ? null : { value: doubted.entry.value, typed: false };
    setDoubted(null);
    const field = form.current?.querySelector<HTMLInputElement>(at('value', 'input'));
    field?.focus();
    field?.select();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    if (doubted !== null) readAgain();
    else onLeave();
  };

  return { form, draft, trouble, doubted, change, take, readAgain, onKeyDown };
}
