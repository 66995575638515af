import { type MoneyWriting, moneyText, readAmount } from '../../reasoner/plain/money.ts';

export interface AskedPrice {
  readonly amount: number;
  /** ISO 4217. */
  readonly money: string;
}

interface InMoney {
  /** The money the price is in; null where the shop did not say. */
  readonly code: string | null;
  /** How the shop writes its own. */
  readonly money: MoneyWriting | null;
  readonly comma: boolean;
}

/** A price as it is typed again. */
export const typedPrice = (price: AskedPrice | null, comma: boolean): string =>
  price === null ? '' : comma ? String(price.amount).replace('.', ',') : String(price.amount);

/** A price as the shop writes it; empty where it is not known. */
export const sayPrice = (price: AskedPrice | null, money: MoneyWriting | null, comma: boolean): string =>
  price === null ? '' : moneyText(price.amount, price.money, money, comma);

/** The price that was typed; null where nothing was, which is not known and never 0; or what is wrong with it. */
export const readPrice = (
  typed: string,
  { code, money, comma }: InMoney,
): { readonly ok: true; readonly price: AskedPrice | null } | { readonly ok: false; readonly sentence: string } => {
  const text = typed.trim();
  if (text === '') return { ok: true, price: null };
  const decimals = money !== null && money.code === code ? money.decimals : 3;
  const amount = readAmount(text);
  // 1,500 of a money with two decimals may be fifteen hundred, or one and a half.
  if (amount === null || (text.split(/[.,]/)[1] ?? '').length > decimals) {
    const like = (decimals === 0 ? '12' : `12.${'50'.padEnd(decimals, '0').slice(0, decimals)}`).replace('.', comma ? ',' : '.');
    return {
      ok: false,
      sentence: `“${text}” is no price. Write it like ${like}, thousands not set apart, or leave it empty where it is not known.`,
    };
  }
  if (code === null) return { ok: false, sentence: 'The shop has not said in what money it asks. Say that first, under The shop.' };
  return { ok: true, price: { amount, money: code } };
};
