import type { z } from 'zod';
import { TroubleError } from '../../db/trouble.ts';
import { Cancelled, cancelled } from './cancelled.ts';
import { type CallName, contract, type Reply, type Trouble } from './contract.ts';
import type { Desk } from './desk.ts';
import { refusal } from './reply.ts';

export type AnyReply = Reply<CallName>;

/** Where a bug is written down: the terminal, never the window. */
export type LogBug = (place: string, error: unknown) => void;

export const isCall = (name: unknown): name is CallName => typeof name === 'string' && Object.hasOwn(contract, name);

export const noSuchCall = refusal('no-such-call', null, 'The window asked for something this program does not do. Restart Kinplate.');

/**
 * Answers one call as it arrives over either transport. Name and argument are unknown until the contract has read them,
 * once, here. Never throws: a bug is logged and replied to as trouble without its particulars.
 */
export const receive = async (desk: Desk, name: unknown, args: unknown, logBug: LogBug): Promise<AnyReply> => {
  if (!isCall(name)) return noSuchCall;
  const parsed = contract[name].args.safeParse(args);
  if (!parsed.success) return { ok: false, trouble: malformed(name, parsed.error) };
  // Each name's schema and function belong together by the type of `Desk`; the compiler cannot follow that through a union.
  const answer = desk[name] as (asked: unknown) => Promise<AnyReply>;
  return replied(name, () => answer(parsed.data), logBug);
};

/** What was answered, or why there is no answer. Never throws. */
export const replied = async (name: string, answer: () => Promise<AnyReply>, logBug: LogBug): Promise<AnyReply> => {
  try {
    return await answer();
  } catch (error) {
    if (error instanceof Cancelled) return cancelled;
    if (error instanceof TroubleError) return { ok: false, trouble: error.trouble };
    logBug(name, error);
    return refusal(
      'bug',
      null,
      'Something went wrong inside the program. Nothing was changed by this step; the terminal holds the particulars.',
    );
  }
};

/** A call as it crosses: JSON, as a text or as the bytes of one in UTF-8. */
export type JsonText = string | Uint8Array;

/** Answers one call from the text of its argument. `read` is false where that is no JSON. */
export const receiveText = async (
  desk: Desk,
  name: unknown,
  args: JsonText,
  logBug: LogBug,
): Promise<{ readonly reply: AnyReply; readonly read: boolean }> => {
  let value: unknown;
  try {
    value = JSON.parse(typeof args === 'string' ? args : new TextDecoder().decode(args));
  } catch {
    return { reply: notJson, read: false };
  }
  return { reply: await receive(desk, name, value, logBug), read: true };
};

const notJson = refusal('malformed', null, 'The call is not JSON.');

/** The first fault of an argument, with the path to its field. */
const malformed = (name: CallName, error: z.ZodError): Trouble => {
  const issue = error.issues[0];
  const path = issue === undefined || issue.path.length === 0 ? null : issue.path.map(String).join('.');
  return {
    code: 'malformed',
    place: path,
    sentence: `${name} was asked with something it cannot read${path === null ? '' : ` at ${path}`}: ${issue?.message ?? 'no particulars'}.`,
  };
};
