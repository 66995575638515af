/** Unless something else is said: 2 GiB. */
export const defaultAtMost = 2 * 2 ** 30;
