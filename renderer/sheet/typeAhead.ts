/** One of a few that can be picked. */
export interface Option {
  readonly value: string;
  readonly text: string;
}

/** What has been typed at a choice so far. `before` is what was picked when the typing began. */
export interface Typed {
  readonly text: string;
  readonly before: string | null;
  /** When the last sign came, ms. */
  readonly at: number;
}

/** What a sign typed at a choice comes to: what is picked now, and, where nothing is called so, the text that found nothing. */
export interface Came {
  readonly picked: string | null;
  readonly typed: Typed | null;
  readonly unknown: string | null;
}

/** Signs that follow each other within this are of one word, ms. */
const pause = 1000;

/**
 * Letters and figures at a choice pick what begins so, or has a word or a figure that does (`8` finds `M8`); more of them, typed on, pick what begins with all of
 * them, and the same one again the next that begins with it. What finds nothing leaves the choice as it was before the typing, so that nothing is picked by half a word.
 * @param picked what is picked now
 * @param at when the sign was typed, ms
 */
export const typedAt = (options: readonly Option[], picked: string | null, last: Typed | null, sign: string, at: number): Came => {
  const on = stillTyped(last, at) ?? { text: '', before: picked, at };
  const text = on.text + sign.toLowerCase();
  const found = calledSo(options, text);
  const [first] = found;
  if (first !== undefined) {
    // The first sign goes on from what is picked, where that begins so as well.
    const next = text.length === 1 ? found[(found.findIndex(({ value }) => value === picked) + 1) % found.length] : undefined;
    return { picked: (next ?? first).value, typed: { text, before: on.before, at }, unknown: null };
  }
  if ([...text].every((one) => one === text[0])) {
    const again = calledSo(options, text[0] as string);
    const next = again[(again.findIndex(({ value }) => value === picked) + 1) % again.length];
    if (next !== undefined) return { picked: next.value, typed: { text, before: on.before, at }, unknown: null };
  }
  return { picked: on.before, typed: null, unknown: text };
};

/** Whether a space typed now is within the name that is being typed; else it is the key that picks. */
export const isWithinName = (options: readonly Option[], last: Typed | null, at: number): boolean => {
  const on = stillTyped(last, at);
  return on !== null && calledSo(options, `${on.text} `).length > 0;
};

const stillTyped = (last: Typed | null, at: number): Typed | null => (last !== null && at - last.at < pause ? last : null);

/** Options that begin so, one that is called just so before others; where none does, those of which a word or a figure does. */
const calledSo = (options: readonly Option[], text: string): readonly Option[] => {
  const beginning = options.filter((one) => one.text.toLowerCase().startsWith(text));
  const whole = ({ text: { length } }: Option): number => (length === text.length ? 0 : 1);
  return beginning.length > 0
    ? beginning.sort((a, b) => whole(a) - whole(b))
    : options.filter((one) => (one.text.toLowerCase().match(/\p{L}+|[\d.,/]+/gu) ?? []).some((word) => word.startsWith(text)));
};
