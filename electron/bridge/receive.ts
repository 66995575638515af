import { expectedBy } from '../../db/read/parse-json.ts';
import { TroubleError } from '../../db/trouble.ts';
import { isDeeper } from '../../reasoner/plain/json-depth.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { halfIn, wholeText } from '../../reasoner/plain/well-formed.ts';
import { Cancelled, cancelled } from './cancelled.ts';
import { type CallName, contract, type Reply, type Trouble } from './contract.ts';
import type { Desk } from './desk.ts';
import { noSuchCall } from './no-such-call.ts';
import { refusal } from './reply.ts';

export type AnyReply = Reply<CallName>;

/** Where a bug is written down: the terminal, never the window. */
export type LogBug = (place: string, error: unknown) => void;

export const isCall = (name: unknown): name is CallName => typeof name === 'string' && Object.hasOwn(contract, name);

/**
 * Answers one call as it arrives over either transport. Name and argument are unknown until the contract has read them,
 * once, here. Never throws: a bug is logged and replied to as trouble without its particulars.
 */
export const receive = async (desk: Desk, name: unknown, args: unknown, logBug: LogBug): Promise<AnyReply> => {
  if (!isCall(name)) return noSuchCall;
  const half = halfIn(args);
  if (half !== null) return { ok: false, trouble: malformed(name, half, wholeText) };
  const parsed = contract[name].args.safeParse(args);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    return { ok: false, trouble: malformed(name, issue?.path ?? [], issue === undefined ? 'something else' : expectedBy(issue)) };
  }
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

/** Answers one call from the text of its argument. `read` is false where that is not taken for JSON. */
export const receiveText = async (
  desk: Desk,
  name: unknown,
  args: JsonText,
  logBug: LogBug,
): Promise<{ readonly reply: AnyReply; readonly read: boolean }> => {
  const value = valueIn(args);
  return 'because' in value
    ? { reply: refusal('malformed', null, value.because), read: false }
    : { reply: await receive(desk, name, value.read, logBug), read: true };
};

/** What the text holds, or why it is not read. How long and how deep it is, is asked first. */
const valueIn = (text: JsonText): { readonly read: unknown } | { readonly because: string } => {
  if (text.length > limits.callBytes)
    return { because: `What the window asked is too long: at most ${limits.callBytes} bytes may be asked at once. Nothing was changed.` };
  if (isDeeper(text, limits.jsonDepth)) return { because: `The call holds values within values, more than ${limits.jsonDepth} deep.` };
  let whole: string;
  try {
    whole = typeof text === 'string' ? text : new TextDecoder('utf-8', { fatal: true }).decode(text);
  } catch {
    return { because: 'The call is not text in UTF-8.' };
  }
  try {
    return { read: JSON.parse(whole) as unknown };
  } catch {
    return { because: 'The call is not JSON.' };
  }
};

/** A fault of an argument, with the path to its field. */
const malformed = (name: CallName, path: readonly PropertyKey[], expected: string): Trouble => {
  const place = path.length === 0 ? null : path.map(String).join('.');
  return {
    code: 'malformed',
    place,
    sentence: `What the window asked for (${name}) cannot be read${place === null ? '' : ` at ${place}`}: expected ${expected}. Nothing was changed.`,
  };
};
