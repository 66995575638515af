import type { Bridge, CallArgs, CallName, CallResult, Reply } from '../../electron/bridge/contract.ts';

/** Questions put before it is known whether they will be asked: of an entry that is still being typed. */
export interface Ahead {
  /**
   * Asks the desk; whoever asks the same a moment later has the answer then. A newer question takes the place of the older one, at the desk as well.
   * @param changes of the atlas, so far: what was answered under another one is no answer
   */
  ask<C extends CallName>(name: C, args: CallArgs<C>, changes: number): void;
  /** The answer, where the question was asked and its answer is here already; else null. */
  known<C extends CallName>(name: C, args: CallArgs<C>, changes: number): CallResult<C> | null;
  /** The reply that is on its way, or here; null where it was not asked. */
  asked<C extends CallName>(name: C, args: CallArgs<C>, changes: number): Promise<Reply<C>> | null;
}

interface Question {
  readonly name: CallName;
  /** What is asked, under which atlas. */
  readonly of: string;
  readonly reply: Promise<Reply<CallName>>;
  /** Once it is here, and no trouble. */
  answer: unknown;
}

/** The last question alone is kept: there is one editor, and what stood in it before is not asked any more. */
export const aheadOf = (ask: Bridge['ask']): Ahead => {
  let last: Question | null = null;
  const ofWhat = (args: unknown, changes: number): string => `${changes} ${JSON.stringify(args)}`;
  const found = (name: CallName, args: unknown, changes: number): Question | null =>
    last !== null && last.name === name && last.of === ofWhat(args, changes) ? last : null;
  return {
    ask: (name, args, changes) => {
      if (found(name, args, changes) !== null) return;
      const one: Question = { name, of: ofWhat(args, changes), reply: ask(name, args, { place: 'ahead' }), answer: undefined };
      last = one;
      void one.reply.then((reply) => {
        if (reply.ok) one.answer = reply.value;
        else if (last === one) last = null;
      });
    },
    known: <C extends CallName>(name: C, args: CallArgs<C>, changes: number) =>
      (found(name, args, changes)?.answer as CallResult<C> | undefined) ?? null,
    asked: <C extends CallName>(name: C, args: CallArgs<C>, changes: number) =>
      (found(name, args, changes)?.reply as Promise<Reply<C>> | undefined) ?? null,
  };
};
