import type { VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import { moneyText, sumOf } from '../../reasoner/plain/money.ts';
import { list } from '../../reasoner/plain/text.ts';
import { worthOf } from '../../reasoner/plain/worth.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';

/** What the parts that are certain would sell for by the shop's own list: for the shop's eyes, and on no paper. Nothing where the shop has no list. */
export function WorthNote({ verdict }: { readonly verdict: VerdictAtOnce }) {
  const words = useWords();
  const { money, measures } = useShop().settings;
  const prices = latest(useAsk('prices.list', money === null ? null : {})) ?? [];
  if (money === null || prices.length === 0) return null;
  const known = new Map(prices.flatMap((price) => (price.money === money.code ? [[price.part as string, price.amount] as const] : [])));
  const { priced, unpriced } = worthOf(verdict.slots, (part) => known.get(part) ?? null);
  const text = (amount: number): string => moneyText(amount, money.code, money, measures.comma);
  const slots = (all: readonly { readonly slot: (typeof verdict.slots)[number]['slot'] }[]): string =>
    list(all.map(({ slot }) => words.slotName(slot)));
  const sentences =
    priced.length + unpriced.length === 0
      ? ['No slot is settled to one listed part, so there is nothing to put a price to.']
      : [
          priced.length === 0
            ? 'None of the parts that are certain has a price on the shop’s own list.'
            : priced.length === 1
              ? `By the shop’s own list the ${slots(priced)}, which is certain, would sell for ${text(sumOf(priced.map(({ amount }) => amount)))}.`
              : `By the shop’s own list the parts that are certain, ${slots(priced)}, would sell for ${text(sumOf(priced.map(({ amount }) => amount)))} together.`,
          ...(unpriced.length === 0 || priced.length === 0
            ? []
            : [
                `The ${slots(unpriced)} ${unpriced.length === 1 ? 'is' : 'are'} certain too and ${unpriced.length === 1 ? 'has' : 'have'} no price there.`,
              ]),
        ];
  return (
    <section className="block no-print" aria-labelledby="verdict-worth-title">
      <h2 id="verdict-worth-title" className="head">
        For the shop alone
      </h2>
      <p>{sentences.join(' ')}</p>
    </section>
  );
}
