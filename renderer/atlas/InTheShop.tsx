import { type FormEvent, useState } from 'react';
import type { KeptStockLine, PartPrice } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { PartId } from '../../reasoner/index.ts';
import { moneyText, readAmount } from '../../reasoner/plain/money.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { landmark } from '../look/landmarks.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { sayWhen } from '../values/sayWhen.ts';

/** What the shop itself has of a part: what it asks for it, beside what packs say, and what lies on its shelves. */
export function InTheShop({ part }: { readonly part: PartId }) {
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
          <OwnPrice key={price.own?.version ?? 'none'} part={part} price={price} onSet={() => setAsking((count) => count + 1)} />
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
function OwnPrice({ part, price: { own }, onSet }: { readonly part: PartId; readonly price: PartPrice; onSet(): void }) {
  const { settings } = useShop();
  const [typed, setTyped] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const money = own?.money ?? settings.money?.code ?? null;
  const amount = typed === null || typed.trim() === '' ? null : readAmount(typed);
  const wrong = typed !== null && typed.trim() !== '' && amount === null;
  const save = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (wrong || money === null) return;
    const price = amount === null ? null : { amount, money, note: own?.note ?? '' };
    const reply = await desk.ask('prices.set', { part, price, who: whoLooks(), madeAgainst: own?.version ?? null });
    if (!reply.ok) setTrouble(reply.trouble);
    if (!reply.ok && reply.trouble.code !== 'changed-since') return;
    setTyped(null);
    onSet();
  };
  if (money === null)
    return (
      <span className="soft">
        Not known. In what money the shop asks is said under <a href={hrefOf({ screen: 'settings' })}>The shop</a>.
      </span>
    );
  return (
    <>
      {typed === null ? (
        <span>
          {own === null ? (
            <span className="soft">not on the shop’s own list</span>
          ) : (
            <>
              <b>{moneyText(own.amount, own.money, settings.money, settings.measures.comma)}</b>{' '}
              <span className="small soft">
                by the shop’s own list, {own.who || 'nobody said who'} {sayWhen(own.at)}
              </span>
            </>
          )}{' '}
          <button type="button" className="button plain no-print" onClick={() => setTyped(own === null ? '' : String(own.amount))}>
            {own === null ? 'Say a price' : 'Change'}
          </button>
        </span>
      ) : (
        <form className="own-price" aria-label="The shop’s price" onSubmit={(event) => void save(event)} {...landmark('own undo')}>
          <input
            className="field number"
            inputMode="decimal"
            autoComplete="off"
            aria-label={`Price, ${money}`}
            aria-invalid={wrong}
            placeholder="not known"
            // biome-ignore lint/a11y/noAutofocus: the box was asked for, and this is all there is to say in it.
            autoFocus
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
          />{' '}
          {money}{' '}
          <button type="submit" className="button main" disabled={wrong}>
            {typed.trim() === '' && own !== null ? 'Take it off the list' : 'Save'}
          </button>{' '}
          <button type="button" className="button" onClick={() => setTyped(null)}>
            Cancel
          </button>
        </form>
      )}
      {trouble !== null && <TroubleNote lead="The price was not saved; what is there now is shown." trouble={trouble} />}
    </>
  );
}
