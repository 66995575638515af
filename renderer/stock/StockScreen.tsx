import { useState } from 'react';
import type { KeptStockLine, StockTable } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { stockConditions } from '../../reasoner/plain/stock-condition.ts';
import { list } from '../../reasoner/plain/text.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { found as foundIn, sayFound } from '../lists/found.ts';
import { ShopList } from '../lists/ShopList.tsx';
import { saidOfMany, saidOfSame, TableIn, type Tense } from '../lists/TableIn.tsx';
import { AskDialog } from '../look/AskDialog.tsx';
import { giveFile } from '../look/giveFile.ts';
import { hrefOf } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import { StockForm } from './StockForm.tsx';
import { StockHistory } from './StockHistory.tsx';
import { TakeDialog } from './TakeDialog.tsx';
import { useStock } from './useStock.ts';

/** What is being done with the list. */
type Doing = { readonly what: 'add' } | { readonly what: 'edit' | 'take' | 'history' | 'remove'; readonly line: KeptStockLine };

const saidOfLine = ({ name, words, number, numbers, place, condition, note }: KeptStockLine) => ({
  words: [name, words, place, condition, note],
  numbers: [number, ...numbers],
});

/** What lies on the shop's shelves: found, put on the list, changed, taken and taken off. */
export function StockScreen() {
  const { lines, trouble: unlisted, refresh } = useStock();
  const [typed, setTyped] = useState('');
  const [condition, setCondition] = useState('');
  const [doing, setDoing] = useState<Doing | null>(null);
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const found = foundIn(lines ?? [], typed, saidOfLine).filter((line) => condition === '' || line.condition === condition);
  const done = (words: string): void => {
    setDoing(null);
    setSaid(words);
    refresh();
  };
  const remove = async (line: KeptStockLine): Promise<void> => {
    setTrouble(null);
    const reply = await desk.ask('stock.remove', { line: line.id, who: whoLooks(), madeAgainst: line.version });
    if (reply.ok) return done(`Taken off the list: ${line.name}.`);
    setDoing(null);
    setTrouble(reply.trouble);
    refresh();
  };
  const write = async (): Promise<void> => {
    const reply = await desk.ask('stock.csv', {});
    if (!reply.ok) return setTrouble(reply.trouble);
    giveFile('stock.csv', reply.value, 'text/csv');
    setSaid('Written: stock.csv.');
  };
  return (
    <ShopList<KeptStockLine>
      title="Stock"
      said={said}
      trouble={trouble}
      unlisted={unlisted}
      link={
        <a className="no-print" href={hrefOf({ screen: 'prices' })}>
          Prices…
        </a>
      }
      find={{ label: 'Find in stock', placeholder: 'name, number, place, words of the note', typed, onType: setTyped }}
      narrow={
        <select className="field" aria-label="Condition" value={condition} onChange={(event) => setCondition(event.target.value)}>
          <option value="">in any condition</option>
          {stockConditions.map((one) => (
            <option key={one}>{one}</option>
          ))}
        </select>
      }
      counted={`${sayFound(found.length, lines?.length ?? 0, 'line')}, ${sayMany(
        found.reduce((sum, { many }) => sum + many, 0),
        'piece',
      )}`}
      inAll={lines?.length ?? null}
      found={found}
      empty={
        <>
          <p>
            Nothing is on the list yet. Press <b>Add a part</b> and say what lies on the shelf: by name or number, or in words where the
            atlas does not know it.
          </p>
          <p>
            For many at once, <b>Read a table…</b>: a row a part, with the headings “what”, “number”, “how many”, “condition”, “price”,
            “money”, “where”, “note”.
          </p>
        </>
      }
      heads={[
        { name: 'Part' },
        { name: 'How many', figure: true },
        { name: 'Condition' },
        { name: 'Price of one', figure: true },
        { name: 'Where' },
        { name: 'Note' },
      ]}
      row={(line) => <Line key={line.id} line={line} onDo={setDoing} />}
      doing={
        <>
          {(doing?.what === 'add' || doing?.what === 'edit') && (
            <StockForm
              line={doing.what === 'add' ? null : doing.line}
              places={[...new Set((lines ?? []).map(({ place }) => place))].filter((place) => place !== '').slice(0, 300)}
              onSaved={(line) => done(`On the list: ${line.name}, ${line.many}.`)}
              onLeave={() => setDoing(null)}
            />
          )}
          {doing?.what === 'take' && (
            <TakeDialog
              line={doing.line}
              onTaken={(line, many) => done(`Taken: ${many} of ${line.name}; ${line.many} left.`)}
              onLeave={() => setDoing(null)}
            />
          )}
          {doing?.what === 'history' && <StockHistory line={doing.line} onLeave={() => setDoing(null)} />}
          {doing?.what === 'remove' && (
            <AskDialog
              title={`Take ${doing.line.name} off the list?`}
              choices={[{ label: 'Take it off', tone: 'danger', run: () => void remove(doing.line) }]}
              onLeave={() => setDoing(null)}
            >
              <p>
                {doing.line.many === 0
                  ? 'None of it lies there.'
                  : `By the list ${doing.line.many} ${doing.line.many === 1 ? 'lies' : 'lie'} there.`}{' '}
                What the line said, and when, is kept.
              </p>
            </AskDialog>
          )}
        </>
      }
    >
      <TableIn<StockTable>
        label="Table of stock"
        look={(asked) => desk.ask('stock.lookAtTable', asked)}
        takeIn={(asked) => desk.ask('stock.takeInTable', { ...asked, who: whoLooks() })}
        changes={({ fresh, changed }) => fresh + changed}
        say={sayTable}
        rest="Lines it leaves out stay as they are."
        onTaken={done}
      />
      <button type="button" className="button no-print" onClick={() => void write()}>
        Write as a table
      </button>
      <button type="button" className="button main no-print" onClick={() => setDoing({ what: 'add' })}>
        Add a part
      </button>
    </ShopList>
  );
}

const sayTable = ({ fresh, changed, same }: StockTable, tense: Tense): string =>
  list([...saidOfMany(fresh, 'new line', 'put on the list', tense), ...saidOfMany(changed, 'line', 'changed', tense), ...saidOfSame(same)]);

function Line({ line, onDo }: { readonly line: KeptStockLine; onDo(doing: Doing): void }) {
  const { settings } = useShop();
  return (
    <tr className={line.many === 0 ? 'is-none' : undefined}>
      <th scope="row">
        <button type="button" className="link" title="Change this line" onClick={() => onDo({ what: 'edit', line })}>
          {line.name}
        </button>
        {line.numbers.length > 0 && <span className="shop-detail numbers">{line.numbers.join(', ')}</span>}
        {line.part !== null && line.slot === null && <span className="shop-detail">no longer in the atlas</span>}
      </th>
      <td className="is-figure">{line.many}</td>
      <td>{line.condition}</td>
      <td className="is-figure">
        {line.price === null ? (
          <span className="soft">not known</span>
        ) : (
          moneyText(line.price.amount, line.price.money, settings.money, settings.measures.comma)
        )}
      </td>
      <td>{line.place}</td>
      <td>{line.note}</td>
      <td className="no-print shop-actions">
        <button
          type="button"
          className="button plain"
          aria-label={`Take ${line.name}`}
          disabled={line.many === 0}
          onClick={() => onDo({ what: 'take', line })}
        >
          Take
        </button>
        <button
          type="button"
          className="button plain"
          aria-label={`History of ${line.name}`}
          onClick={() => onDo({ what: 'history', line })}
        >
          History
        </button>
        {line.part !== null && line.slot !== null && (
          <a
            className="button plain"
            aria-label={`${line.name} in the atlas`}
            href={hrefOf({ screen: 'atlas', page: { kind: 'part', id: line.part } })}
          >
            Atlas
          </a>
        )}
        <button
          type="button"
          className="button bare"
          aria-label={`Take ${line.name} off the list`}
          onClick={() => onDo({ what: 'remove', line })}
        >
          ✕
        </button>
      </td>
    </tr>
  );
}
