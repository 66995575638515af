import { useState } from 'react';
import type { KeptStockLine, PartPrice } from '../../db/answers.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import type { ChosenPart } from '../lists/PartChoice.tsx';
import { sayPrice } from '../lists/readPrice.ts';
import { PriceForm } from '../prices/PriceForm.tsx';
import { hrefOf } from '../route/route.ts';
import { sayWhen } from '../values/sayWhen.ts';

/** What the shop itself has of a part: what it asks for it, beside what packs say, and what lies on its shelves. */
export function InTheShop({ part: of }: { readonly part: ChosenPart }) {
  const part = of.id;
  const { settings } = useShop();
  const [asking, setAsking] = useState(0);
  const price = latest(useAsk('prices.of', { part }, 0, asking));
  const stock = latest(useAsk('stock.of', { part })) ?? [];
  const text = (amount: number, money: string): string => moneyText(amount, money, settings.money, settings.measures.comma);
  if (price === null) return null;
  return (
    <>
      <h3 className="head">In the shop</h3>
      <dl className="page-facts">
        <dt>Asked for it</dt>
        <dd>
          <OwnPrice part={of} price={price} onSet={() => setAsking((count) => count + 1)} />
          {price.packs.map(({ rates, amount, money }) => (
            <div key={rates} className="small soft">
              {rates}: {text(amount, money)}
            </div>
          ))}
        </dd>
        {stock.length > 0 && (
          <>
            <dt>In stock</dt>
            <dd>
              <Lying lines={stock} />
            </dd>
          </>
        )}
      </dl>
    </>
  );
}

function Lying({ lines }: { readonly lines: readonly KeptStockLine[] }) {
  return (
    <>
      {lines.map((line) => (
        <div key={line.id}>
          {line.many} {line.condition}
          {line.place === '' ? '' : `, ${line.place}`}
        </div>
      ))}
      <a className="small" href={hrefOf({ screen: 'stock' })}>
        stock list
      </a>
    </>
  );
}

/** The shop's own price: said, changed, taken off. */
function OwnPrice({ part, price: { own }, onSet }: { readonly part: ChosenPart; readonly price: PartPrice; onSet(): void }) {
  const { settings } = useShop();
  const [saying, setSaying] = useState(false);
  if (own === null && settings.money === null)
    return (
      <span className="soft">
        Not known. In what money the shop asks is said under <a href={hrefOf({ screen: 'settings' })}>The shop</a>.
      </span>
    );
  return (
    <span>
      {own === null ? (
        <span className="soft">not on the shop’s own list</span>
      ) : (
        <>
          <b>{sayPrice(own, settings.money, settings.measures.comma)}</b>{' '}
          <span className="small soft">
            by the shop’s own list, {own.who || 'nobody said who'} {sayWhen(own.at)}
          </span>
        </>
      )}{' '}
      <button type="button" className="button plain no-print" onClick={() => setSaying(true)}>
        {own === null ? 'Say a price' : 'Change'}
      </button>{' '}
      <a className="small no-print" href={hrefOf({ screen: 'prices' })}>
        price list
      </a>
      {saying && (
        <PriceForm
          part={part}
          price={own}
          onSaved={() => {
            setSaying(false);
            onSet();
          }}
          onLeave={() => {
            setSaying(false);
            onSet();
          }}
        />
      )}
    </span>
  );
}
