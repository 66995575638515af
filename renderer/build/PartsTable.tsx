import type { BuildSheet, PartId } from '../../reasoner/index.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { sayInStock } from '../../reasoner/plain/stock-condition.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { ColumnHeads } from './ColumnHeads.tsx';
import { sayHours } from './sayBuild.ts';

/** The parts of a build as they are fetched and paid for. A price that is not known is never nought, and the total says how many are missing. */
export function PartsTable({ sheet: { parts, total }, stock }: { readonly sheet: BuildSheet; readonly stock: readonly PartId[] }) {
  const { money, measures } = useShop().settings;
  const shelves = latest(useAsk('stock.list', {})) ?? [];
  // Where the list has none that is ready, somebody may have said here that it is there.
  const lying = (part: PartId): string =>
    sayInStock(
      shelves.filter((line) => line.part === part),
      stock.includes(part) ? 'yes' : '0',
    );
  const say = (amount: number): string => (total.money === null ? '' : moneyText(amount, total.money, money, measures.comma));
  return (
    <section>
      <h3 className="head">Parts</h3>
      <table className="plan-table sheet-table">
        <ColumnHeads
          of={['Slot', 'Part', 'Number', { figures: 'Quantity' }, { figures: 'In stock' }, { figures: 'Price' }, { figures: 'Line total' }]}
        />
        <tbody>
          {parts.map(({ slot, slotName, part, text, number, from, price }) => {
            const paid = price === null ? 'not known' : say(price);
            const whence = from === 'bought' ? paid : from === 'stock' ? 'from stock' : 'not sold';
            return (
              <tr key={slot}>
                <th scope="row">{slotName}</th>
                <td>{text}</td>
                <td className="part-number">{part === null ? '' : (number ?? 'not known')}</td>
                <td className="number">{part === null ? '' : '1'}</td>
                <td className="number in-stock">{part === null || from === 'not sold' ? '' : lying(part)}</td>
                <td className="number">{part === null ? '' : whence}</td>
                <td className="number">{part === null ? '' : from === 'bought' ? paid : '–'}</td>
              </tr>
            );
          })}
        </tbody>
        <tfoot>
          {total.parts !== null && (
            <tr>
              <th scope="row" colSpan={6}>
                Parts to buy
              </th>
              <td className="number">{say(total.parts)}</td>
            </tr>
          )}
          {total.hours > 0 && (
            <tr>
              <th scope="row" colSpan={6}>
                Machining, {sayHours(total.hours)}
              </th>
              <td className="number">{total.labour === null ? 'not known' : say(total.labour)}</td>
            </tr>
          )}
          <tr className="sheet-total">
            <th scope="row" colSpan={6}>
              Total
              {total.unpriced > 0 &&
                `, without ${total.unpriced === 1 ? 'one part whose price is' : `${total.unpriced} parts whose price is`} not known`}
            </th>
            <td className="number">{total.all === null ? 'no rates' : say(total.all)}</td>
          </tr>
        </tfoot>
      </table>
    </section>
  );
}
