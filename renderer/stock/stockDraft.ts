import type { KeptStockLine, StockLine } from '../../db/answers.ts';
import type { PartId } from '../../reasoner/index.ts';
import type { StockCondition } from '../../reasoner/plain/stock-condition.ts';
import { readPrice, typedPrice } from '../lists/readPrice.ts';

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

export const draftOf = (line: StockLine & Partial<Pick<KeptStockLine, 'name'>>, comma: boolean): StockDraft => ({
  part: line.part === null ? null : { id: line.part, name: line.name ?? line.words },
  words: line.part === null ? line.words : '',
  number: line.part === null ? line.number : '',
  many: String(line.many),
  condition: line.condition,
  price: typedPrice(line.price, comma),
  place: line.place,
  note: line.note,
});

/** The line that was typed, or what is wrong with it. @param written what prices are in, and how */
export const lineOf = (
  draft: StockDraft,
  written: Parameters<typeof readPrice>[1],
): { readonly ok: true; readonly line: StockLine } | { readonly ok: false; readonly sentence: string } => {
  const refused = (sentence: string) => ({ ok: false, sentence }) as const;
  const many = draft.many.trim();
  if (draft.part === null && draft.words.trim() === '') return refused('Say what it is: a part of the atlas, or words.');
  if (!/^\d{1,6}$/.test(many)) return refused(`“${many}” is no number of pieces. Write 0, 1, 2 …`);
  const read = readPrice(draft.price, written);
  if (!read.ok) return read;
  return {
    ok: true,
    line: {
      part: draft.part?.id ?? null,
      words: draft.part?.name ?? draft.words.trim(),
      number: draft.part === null ? draft.number.trim() : '',
      many: Number(many),
      condition: draft.condition,
      price: read.price,
      place: draft.place.trim(),
      note: draft.note.trim(),
    },
  };
};
