import type { KeptStockLine, StockLine, StockState } from '../../db/answers.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { capital } from '../../reasoner/plain/text.ts';
import type { Shop } from '../bridge/ShopContext.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { HistoryDialog } from '../lists/HistoryDialog.tsx';

/** What became of a line, newest first. */
export function StockHistory({ line, onLeave }: { readonly line: KeptStockLine; onLeave(): void }) {
  const { settings } = useShop();
  const asked = useAsk('stock.history', { line: line.id });
  const states = latest(asked) ?? [];
  return (
    <HistoryDialog
      title={line.name}
      trouble={asked.state === 'trouble' ? asked.trouble : null}
      states={states.map((state, index) => ({ ...state, says: sayChange(state, states[index + 1] ?? null, settings) }))}
      onLeave={onLeave}
    />
  );
}

/** What one state says otherwise than the one before, as a sentence. */
const sayChange = ({ line }: StockState, before: StockState | null, { money, measures }: Shop['settings']): string => {
  if (line === null) return 'Taken off the list.';
  const price = ({ price: one }: StockLine): string =>
    one === null ? 'price not known' : moneyText(one.amount, one.money, money, measures.comma);
  const old = before?.line ?? null;
  if (old === null)
    return `Put on the list: ${[`${line.many}`, line.condition, ...(line.price === null ? [] : [price(line)]), ...(line.place === '' ? [] : [line.place])].join(', ')}.`;
  const said = [
    ...(line.words === old.words && line.number === old.number && line.part === old.part
      ? []
      : [`now ${line.words}${line.number === '' ? '' : `, ${line.number}`}`]),
    ...(line.many === old.many ? [] : [`${old.many} became ${line.many}`]),
    ...(line.condition === old.condition ? [] : [`now ${line.condition}`]),
    ...(price(line) === price(old) ? [] : [price(line)]),
    ...(line.place === old.place ? [] : [line.place === '' ? 'where it lies is no longer said' : `now in ${line.place}`]),
    ...(line.note === old.note ? [] : [line.note === '' ? 'the note is gone' : `note: ${line.note}`]),
  ].join('; ');
  return `${capital(said)}.`;
};
