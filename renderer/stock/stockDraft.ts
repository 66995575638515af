import type { KeptStockLine, StockLine } from '../../db/answers.ts';
import type { PartId } from '../../reasoner/index.ts';
import { readAmount } from '../../reasoner/plain/money.ts';
import type { StockCondition } from '../../reasoner/plain/stock-condition.ts';

/** A line as it is typed. */
export interface StockDraft {
  readonly part: { readonly id: PartId; readonly name: string } | null;
  readonly words: string;
  readonly number: string;
  readonly many: string;
  readonly condition: StockCondition;
  readonly price: string;
  readonly place: string;
  readonly note: string;
}

export const newDraft: StockDraft = {
  part: null,
  words: '',
  number: '',
  many: '1',
  condition: 'not looked at yet',
  price: '',
  place: '',
  note: '',
};

export const draftOf = (line: StockLine & Partial<Pick<KeptStockLine, 'name'>>): StockDraft => ({
  part: line.part === null ? null : { id: line.part, name: line.name ?? line.words },
  words: line.part === null ? line.words : '',
  number: line.part === null ? line.number : '',
  many: String(line.many),
  condition: line.condition,
  price: line.price === null ? '' : String(line.price.amount),
  place: line.place,
  note: line.note,
});

/** The line that was typed, or what is wrong with it. @param money what prices are in; null where the shop did not say */
export const lineOf = (
  draft: StockDraft,
  money: string | null,
): { readonly ok: true; readonly line: StockLine } | { readonly ok: false; readonly sentence: string } => {
  const refused = (sentence: string) => ({ ok: false, sentence }) as const;
  const [many, price] = [draft.many.trim(), draft.price.trim()];
  if (draft.part === null && draft.words.trim() === '') return refused('Say what it is: a part of the atlas, or words.');
  if (!/^\d{1,6}$/.test(many)) return refused(`“${many}” is no number of pieces. Write 0, 1, 2 …`);
  const amount = price === '' ? null : readAmount(price);
  if (price !== '' && amount === null)
    return refused(`“${price}” is no price. Write it like 12.50, or leave it empty where it is not known.`);
  if (amount !== null && money === null)
    return refused('The shop has not said in what money it asks. Say that first, under The shop; the line can be kept without its price.');
  return {
    ok: true,
    line: {
      part: draft.part?.id ?? null,
      words: draft.part?.name ?? draft.words.trim(),
      number: draft.part === null ? draft.number.trim() : '',
      many: Number(many),
      condition: draft.condition,
      price: amount === null || money === null ? null : { amount, money },
      place: draft.place.trim(),
      note: draft.note.trim(),
    },
  };
};
