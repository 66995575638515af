import { useCallback, useState } from 'react';
import type { PriceState, PriceTable, ShopPrice } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { list } from '../../reasoner/plain/text.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { found as foundIn, sayFound } from '../lists/found.ts';
import { HistoryDialog } from '../lists/HistoryDialog.tsx';
import { sayPrice } from '../lists/readPrice.ts';
import { ShopList } from '../lists/ShopList.tsx';
import { saidOfMany, saidOfSame, TableIn, type Tense } from '../lists/TableIn.tsx';
import { AskDialog } from '../look/AskDialog.tsx';
import { giveFile } from '../look/giveFile.ts';
import { hrefOf } from '../route/route.ts';
import { sayWhen } from '../values/sayWhen.ts';
import { PriceForm } from './PriceForm.tsx';

/** What is being done with the list. */
type Doing = { readonly what: 'add' } | { readonly what: 'edit' | 'history' | 'remove'; readonly price: ShopPrice };

const nameOf = ({ name, part }: ShopPrice): string => name ?? part;
const saidOf = (price: ShopPrice) => ({ words: [nameOf(price), price.part, price.note, price.who], numbers: price.numbers });

/** What the shop asks for parts, by its own list: found, said, changed, taken off. */
export function PricesScreen() {
  const [asking, setAsking] = useState(0);
  const asked = useAsk('prices.list', {}, 0, asking);
  const refresh = useCallback(() => setAsking((count) => count + 1), []);
  const prices = latest(asked);
  const { money, measures } = useShop().settings;
  const [typed, setTyped] = useState('');
  const [doing, setDoing] = useState<Doing | null>(null);
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const found = foundIn(prices ?? [], typed, saidOf);
  const text = (price: ShopPrice): string => sayPrice(price, money, measures.comma);
  const done = (words: string): void => {
    setDoing(null);
    setSaid(words);
    refresh();
  };
  const remove = async (price: ShopPrice): Promise<void> => {
    setTrouble(null);
    const reply = await desk.ask('prices.set', { part: price.part, price: null, who: whoLooks(), madeAgainst: price.version });
    if (reply.ok) return done(`Taken off the list: ${nameOf(price)}.`);
    setDoing(null);
    setTrouble(reply.trouble);
    refresh();
  };
  const write = async (): Promise<void> => {
    const reply = await desk.ask('prices.csv', {});
    if (!reply.ok) return setTrouble(reply.trouble);
    giveFile('prices.csv', reply.value, 'text/csv');
    setSaid('Written: prices.csv.');
  };
  return (
    <ShopList<ShopPrice>
      title="Prices"
      said={said}
      trouble={trouble}
      unlisted={asked.state === 'trouble' ? asked.trouble.sentence : null}
      link={
        <a className="no-print" href={hrefOf({ screen: 'stock' })}>
          Stock…
        </a>
      }
      find={{ label: 'Find a price', placeholder: 'name, number, words of the note', typed, onType: setTyped }}
      counted={sayFound(found.length, prices?.length ?? 0, 'price')}
      inAll={prices?.length ?? null}
      found={found}
      empty={
        <>
          <p>
            No price is on the list yet. Press <b>Add a price</b>, find the part and say what you ask for one.
            {money === null && (
              <>
                {' '}
                Before that, say under <a href={hrefOf({ screen: 'settings' })}>The shop…</a> in what money.
              </>
            )}
          </p>
          <p>
            For many at once, <b>Read a table…</b>: a row a part, with the headings “part” (its id), “price”, “money”, “note”. What is not
            on the list is not known, or as a pack says it.
          </p>
        </>
      }
      heads={[{ name: 'Part' }, { name: 'Asked for one', figure: true }, { name: 'Since' }, { name: 'Said by' }, { name: 'Note' }]}
      row={(price) => <Row key={price.part} price={price} text={text(price)} onDo={setDoing} />}
      doing={
        <>
          {(doing?.what === 'add' || doing?.what === 'edit') && (
            <PriceForm
              part={doing.what === 'add' ? null : { id: doing.price.part, name: nameOf(doing.price) }}
              price={doing.what === 'add' ? null : doing.price}
              onSaved={({ name }, price) => done(price === null ? `Taken off the list: ${name}.` : `On the list: ${name}, ${text(price)}.`)}
              onLeave={() => {
                setDoing(null);
                refresh();
              }}
            />
          )}
          {doing?.what === 'history' && <PriceHistory price={doing.price} onLeave={() => setDoing(null)} />}
          {doing?.what === 'remove' && (
            <AskDialog
              title={`Take ${nameOf(doing.price)} off the list?`}
              choices={[{ label: 'Take it off', tone: 'danger', run: () => void remove(doing.price) }]}
              onLeave={() => setDoing(null)}
            >
              <p>{text(doing.price)} is asked for it. What was asked, and when, is kept.</p>
            </AskDialog>
          )}
        </>
      }
    >
      <TableIn<PriceTable>
        label="Table of prices"
        look={(table) => desk.ask('prices.lookAtTable', table)}
        takeIn={(table) => desk.ask('prices.takeInTable', { ...table, who: whoLooks() })}
        changes={({ fresh, changed, off }) => fresh + changed + off}
        say={sayTable}
        rest="Parts it leaves out stay as they are."
        onTaken={done}
      />
      <button type="button" className="button no-print" onClick={() => void write()}>
        Write as a table
      </button>
      <button type="button" className="button main no-print" onClick={() => setDoing({ what: 'add' })}>
        Add a price
      </button>
    </ShopList>
  );
}

const sayTable = ({ fresh, changed, off, same }: PriceTable, tense: Tense): string =>
  list([
    ...saidOfMany(fresh, 'new price', 'put on the list', tense),
    ...saidOfMany(changed, 'price', 'changed', tense),
    ...saidOfMany(off, 'price', 'taken off the list', tense),
    ...saidOfSame(same),
  ]);

function Row({ price, text, onDo }: { readonly price: ShopPrice; readonly text: string; onDo(doing: Doing): void }) {
  const name = nameOf(price);
  return (
    <tr>
      <th scope="row">
        <button type="button" className="link" title="Change this price" onClick={() => onDo({ what: 'edit', price })}>
          {name}
        </button>
        {price.numbers.length > 0 && <span className="shop-detail numbers">{price.numbers.join(', ')}</span>}
        {price.name === null && <span className="shop-detail">no longer in the atlas</span>}
      </th>
      <td className="is-figure">{text}</td>
      <td>{sayWhen(price.at)}</td>
      <td>{price.who === '' ? <span className="soft">nobody said who</span> : price.who}</td>
      <td>{price.note}</td>
      <td className="no-print shop-actions">
        <button type="button" className="button plain" aria-label={`History of ${name}`} onClick={() => onDo({ what: 'history', price })}>
          History
        </button>
        {price.name !== null && (
          <a
            className="button plain"
            aria-label={`${name} in the atlas`}
            href={hrefOf({ screen: 'atlas', page: { kind: 'part', id: price.part } })}
          >
            Atlas
          </a>
        )}
        <button
          type="button"
          className="button bare"
          aria-label={`Take ${name} off the list`}
          onClick={() => onDo({ what: 'remove', price })}
        >
          ✕
        </button>
      </td>
    </tr>
  );
}

/** What was asked for a part, newest first. */
function PriceHistory({ price, onLeave }: { readonly price: ShopPrice; onLeave(): void }) {
  const { money, measures } = useShop().settings;
  const asked = useAsk('prices.history', { part: price.part });
  const says = (state: PriceState): string =>
    state.price === null
      ? 'Taken off the list.'
      : `${sayPrice(state.price, money, measures.comma)}${state.price.note === '' ? '' : `, ${state.price.note}`}.`;
  return (
    <HistoryDialog
      title={nameOf(price)}
      trouble={asked.state === 'trouble' ? asked.trouble : null}
      states={(latest(asked) ?? []).map((state) => ({ ...state, says: says(state) }))}
      onLeave={onLeave}
    />
  );
}
