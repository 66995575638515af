const signs: readonly (readonly [string, number])[] = [
  ['M', 1000],
  ['CM', 900],
  ['D', 500],
  ['CD', 400],
  ['C', 100],
  ['XC', 90],
  ['L', 50],
  ['XL', 40],
  ['X', 10],
  ['IX', 9],
  ['V', 5],
  ['IV', 4],
  ['I', 1],
];

/** A whole number from 1 to 3999 in Roman numerals. */
export const toRoman = (number: number): string => {
  let rest = number;
  let text = '';
  for (const [sign, worth] of signs) {
    while (rest >= worth) {
      text += sign;
      rest -= worth;
    }
  }
  return text;
};

/** The number a Roman numeral stands for, or null when it is not written the usual way (`IIII`, `VX`). Case does not matter. */
export const fromRoman = (text: string): number | null => {
  const upper = text.toUpperCase();
  let at = 0;
  let number = 0;
  for (const [sign, worth] of signs) {
    while (upper.startsWith(sign, at)) {
      number += worth;
      at += sign.length;
    }
  }
  return number > 0 && number < 4000 && toRoman(number) === upper ? number : null;
};
