/** A text as a piece of a regular expression, with or without its flag u: every sign in it stands for itself. */
export const asPattern = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
