/** Names, numbers and letters stand on one line, without spaces at their ends. */
export const isPlain = (text: string): boolean => text.trim() === text && !/\p{Cc}/u.test(text);
export const plainText = 'text on one line without spaces at its ends';
