/** Letters as read off a casting: case, spaces and signs between them do not count. */
export const sameMark = (a: string, b: string): boolean => markKey(a) === markKey(b);

/** What a mark is compared by: its letters and figures; of a mark that has none, the signs themselves, dashes all alike. Never empty but for an empty text. */
export const markKey = (text: string): string =>
  bare(text) ||
  text
    .normalize('NFKD')
    .replace(/[\p{Pd}−]/gu, '-')
    .replace(/\s/gu, '');

/** The letters and figures of a text, small. Empty where it has none. */
export const bare = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase();
