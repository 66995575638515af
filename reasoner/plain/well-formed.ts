/** Whether a text is whole Unicode: half a surrogate pair is no character, and is stored and sent as another. */
export const isWellFormed = (text: string): boolean => !/\p{Surrogate}/u.test(text);
