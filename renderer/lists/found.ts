import { sayMany } from '../values/sayMany.ts';

/** Without case, spaces and signs, as a number is looked for. */
const compact = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase();

/** Lines that have every word that was typed somewhere in what they say; a number is found however it is spaced. */
export const found = <Line>(
  lines: readonly Line[],
  typed: string,
  saidOf: (line: Line) => { readonly words: readonly string[]; readonly numbers: readonly string[] },
): readonly Line[] => {
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return lines;
  const whole = compact(typed);
  return lines.filter((line) => {
    const { words, numbers } = saidOf(line);
    const said = [...words, ...numbers].join(' ').toLowerCase();
    return wanted.every((word) => said.includes(word)) || (whole !== '' && numbers.some((number) => compact(number).includes(whole)));
  });
};

/** `12 of 40 lines`. */
export const sayFound = (some: number, all: number, one: string): string =>
  some === all ? sayMany(all, one) : `${some} of ${sayMany(all, one)}`;
