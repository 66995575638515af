/** What a heading of help is found by in the page. */
export const idOf = (at: string): string => `help-${at}`;
