import type { CarriedSeen, KeptSort, StaysSeen } from '../../db/answers.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { sayMany } from '../values/sayMany.ts';
import { useEntryNames } from './entryNames.ts';

/** What the shop keeps that goes from one entry to another with a change, and what cannot go along. Nothing where there is none of either. */
export function CarriedNotes({ carried }: { readonly carried: readonly CarriedSeen[] }) {
  const { settings } = useShop();
  const told = carried.filter(({ rows, stays }) => rows.length > 0 || stays.length > 0);
  const nameOf = useEntryNames(told.map(({ list, to }) => ({ list, id: to })));
  const money = (said: { readonly amount: number; readonly money: string }) =>
    moneyText(said.amount, said.money, settings.money, settings.measures.comma);
  const sayStays = (stay: StaysSeen, to: string, from: string): string => {
    switch (stay.of) {
      case 'prices':
        return `Not carried over: the price of ${money(stay)}, for ${money(stay.kept)} is asked for “${to}”. It stays on the price list under “${from}”.`;
      case 'papers':
        return `Not carried over: “${stay.title}”, which lies beside “${to}” too. It stays under “${from}”.`;
    }
  };
  return told.map(({ list, from, to, rows, stays }) => (
    <div key={`${list} ${from}`} className="small">
      {rows.length > 0 && (
        <p>
          Carries over to “{nameOf(list, to)}”: {rows.map(({ of, many }) => sayMany(many, ...keptWords[of])).join(', ')}.
        </p>
      )}
      {stays.map((stay) => (
        <p key={`${stay.of} ${stay.of === 'papers' ? stay.title : ''}`}>{sayStays(stay, nameOf(list, to), from)}</p>
      ))}
    </div>
  ));
}

const keptWords: { readonly [Sort in KeptSort]: readonly [one: string, more: string] } = {
  samples: ['sample', 'samples'],
  stock: ['stock line', 'stock lines'],
  prices: ['price', 'prices'],
  papers: ['paper', 'papers'],
  courses: ['course', 'courses'],
  templates: ['way of reading a spreadsheet', 'ways of reading a spreadsheet'],
};
