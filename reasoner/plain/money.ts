/** How money is written: the ISO 4217 code, what stands beside the figures, on which side, and how many digits come after the point. */
export interface MoneyWriting {
  readonly code: string;
  readonly written: string;
  readonly before: boolean;
  readonly decimals: number;
}

/**
 * An amount as the shop writes it. Money of another code than the shop's is written plainly, with its code.
 * @param how null where the shop did not say
 */
export const moneyText = (amount: number, money: string, how: MoneyWriting | null, comma = false): string => {
  const own = how !== null && how.code === money ? how : null;
  const fixed = amount.toFixed(own?.decimals ?? (Number.isInteger(amount) ? 0 : 2));
  const figures = comma ? fixed.replace('.', ',') : fixed;
  if (own === null) return `${figures} ${money}`;
  const written = own.written === '' ? own.code : own.written;
  if (!own.before) return `${figures} ${written}`;
  // A single sign stands close to its figures; a word does not.
  return /^\P{L}$/u.test(written) ? `${written}${figures}` : `${written} ${figures}`;
};

/** The most anybody asks for one part or an hour; above it a figure is taken for a slip of the hand. */
export const mostMoney = 10_000_000;

/** What was typed as an amount: `12`, `12.50`, `12,5`; null where it is none. Nothing, and 0, are none: a price that is not known is left out. */
export const readAmount = (typed: string): number | null => {
  const text = typed.trim();
  if (!/^\d{1,8}(?:[.,]\d{1,3})?$/.test(text)) return null;
  const amount = Number(text.replace(',', '.'));
  return amount > 0 && amount <= mostMoney ? amount : null;
};

/** A sum without what binary fractions add to it, to the thousandth. */
export const sumOf = (amounts: readonly number[]): number => Math.round(amounts.reduce((sum, one) => sum + one, 0) * 1000) / 1000;
