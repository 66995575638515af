/** Whether a text is whole Unicode: half a surrogate pair is no character, and is stored and sent as another. */
export const isWellFormed = (text: string): boolean => !/\p{Surrogate}/u.test(text);

/** What a text is to be, where it is not. */
export const wholeText = 'text without half a surrogate pair';

/**
 * Where in a value made of JSON a text, or a key, holds half a surrogate pair: the way to the first of them, null where there is none. The one check of every text that
 * comes in, whatever it is for. The value is no deeper than `isDeeper` lets through.
 */
export const halfIn = (value: unknown): readonly (string | number)[] | null => {
  if (typeof value === 'string') return isWellFormed(value) ? null : [];
  if (typeof value !== 'object' || value === null) return null;
  const steps: Iterable<readonly [string | number, unknown]> = Array.isArray(value) ? value.entries() : Object.entries(value);
  for (const [step, inner] of steps) {
    if (typeof step === 'string' && !isWellFormed(step)) return [step];
    const within = halfIn(inner);
    if (within !== null) return [step, ...within];
  }
  return null;
};
