import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { LearnerId } from '../../db/answers.ts';
import type { CallResult, Trouble } from '../../electron/bridge/contract.ts';
import type { Drill, Judgement } from '../../reasoner/index.ts';
import { desk } from '../bridge/desk.ts';
import { useWindowKey } from '../look/useWindowKey.ts';
import { wantedOf } from './DrillAsked.tsx';

type Next = CallResult<'drills.next'>;
interface Answered {
  readonly judgement: Judgement;
  readonly due: string;
}

export interface DrillRun {
  /** Null while the first is made. */
  readonly next: Next | null;
  readonly today: Next['today'] | null;
  readonly chosen: readonly string[];
  /** As many are chosen as the drill wants. */
  readonly full: boolean;
  readonly answered: Answered | null;
  readonly trouble: Trouble | null;
  /** Whether today's drills are gone beyond. */
  readonly beyond: boolean;
  /** Take the focus: a new question, and what leads on. */
  readonly heading: RefObject<HTMLHeadingElement | null>;
  readonly onward: RefObject<HTMLButtonElement | null>;
  choose(id: string): void;
  answer(of: Drill, response: readonly string[]): Promise<void>;
  goOn(): void;
  goBeyond(): void;
}

/** One drill after another: number keys choose, Backspace takes the last choice back. */
export function useDrill(learner: LearnerId): DrillRun {
  const [next, setNext] = useState<Next | null>(null);
  const [today, setToday] = useState<Next['today'] | null>(null);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [answered, setAnswered] = useState<Answered | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [beyond, setBeyond] = useState(false);
  const asking = useRef(false);
  const heading = useRef<HTMLHeadingElement>(null);
  const onward = useRef<HTMLButtonElement>(null);

  const goOn = useCallback(
    async (further: boolean) => {
      const reply = await desk.ask('drills.next', { learner, beyond: further });
      if (!reply.ok) return setTrouble(reply.trouble);
      setTrouble(null);
      setNext(reply.value);
      setToday(reply.value.today);
      setChosen([]);
      setAnswered(null);
    },
    [learner],
  );
  useEffect(() => void goOn(beyond), [goOn, beyond]);
  const drill = next?.state === 'drill' ? next.drill : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new question takes the focus.
  useEffect(() => heading.current?.focus(), [next]);
  useEffect(() => {
    if (answered !== null) onward.current?.focus();
  }, [answered]);

  const answer = useCallback(
    async (of: Drill, response: readonly string[]) => {
      if (asking.current) return;
      asking.current = true;
      const { topic, seed, edition } = of;
      const reply = await desk.ask('drills.answer', { learner, topic, seed, edition, response: [...response] });
      asking.current = false;
      if (!reply.ok) return setTrouble(reply.trouble);
      setAnswered(reply.value);
      setToday(reply.value.today);
    },
    [learner],
  );

  const wanted = drill === null ? 0 : wantedOf(drill);
  const choose = useCallback(
    (id: string) => {
      if (drill === null || answered !== null) return;
      if (drill.respond.kind === 'one') {
        setChosen([id]);
        void answer(drill, [id]);
        return;
      }
      setChosen((before) =>
        before.includes(id) ? before.filter((each) => each !== id) : before.length < wanted ? [...before, id] : before,
      );
    },
    [drill, answered, answer, wanted],
  );
  const full = drill !== null && drill.respond.kind !== 'one' && chosen.length === wanted;
  useEffect(() => {
    if (full) onward.current?.focus();
  }, [full]);

  useWindowKey((event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target instanceof Element && event.target.closest('input, select, textarea, dialog') !== null) return;
    const choice = drill?.choices[Number(event.key) - 1];
    if (choice !== undefined && /^[1-9]$/.test(event.key)) {
      event.preventDefault();
      choose(choice.id);
    } else if (event.key === 'Backspace' && answered === null) {
      event.preventDefault();
      setChosen((before) => before.slice(0, -1));
    }
  });

  return {
    next,
    today,
    chosen,
    full,
    answered,
    trouble,
    beyond,
    heading,
    onward,
    choose,
    answer,
    goOn: () => void goOn(beyond),
    goBeyond: () => setBeyond(true),
  };
}
