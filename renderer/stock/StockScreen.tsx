import './stock.css';
import { type KeyboardEvent, useState } from 'react';
import type { KeptStockLine } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { stockConditions } from '../../reasoner/plain/stock-condition.ts';
import { useWho, whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { AskDialog } from '../look/AskDialog.tsx';
import { giveFile } from '../look/giveFile.ts';
import { useWhoList } from '../look/HeldShop.tsx';
import { at, landmark } from '../look/landmarks.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import { StockForm } from './StockForm.tsx';
import { StockHistory } from './StockHistory.tsx';
import { TableIn } from './TableIn.tsx';
import { TakeDialog } from './TakeDialog.tsx';
import { linesFound, useStock } from './useStock.ts';

/** What is being done with the list. */
type Doing = { readonly what: 'add' } | { readonly what: 'edit' | 'take' | 'history' | 'remove'; readonly line: KeptStockLine };

/** So many lines are shown at first; more when they are asked for. */
const firstShown = 200;

/** What lies on the shop's shelves: found, put on the list, changed, taken and taken off. */
export function StockScreen() {
  const { lines, trouble: unlisted, refresh } = useStock();
  const whoList = useWhoList();
  const [who, sayWho] = useWho();
  const [typed, setTyped] = useState('');
  const [condition, setCondition] = useState('');
  const [limit, setLimit] = useState(firstShown);
  const [doing, setDoing] = useState<Doing | null>(null);
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const found = linesFound(lines ?? [], typed).filter((line) => condition === '' || line.condition === condition);
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
    <main className="page-screen stock-screen" {...landmark('own undo')}>
      <header className="page-ask">
        <h1 className="page-title">Stock</h1>
        <span role="status" className="soft stock-said">
          {said}
        </span>
        <label className="who-looks no-print">
          Who
          <input
            className="field"
            maxLength={200}
            autoComplete="off"
            placeholder="your name"
            list={whoList}
            value={who}
            onChange={(event) => sayWho(event.target.value)}
          />
        </label>
        <a className="no-print" href={hrefOf({ screen: 'settings' })}>
          The shop…
        </a>
        <TableIn onTaken={done} />
        <button type="button" className="button no-print" onClick={() => void write()}>
          Write as a table
        </button>
        <button type="button" className="button main no-print" onClick={() => setDoing({ what: 'add' })}>
          Add a part
        </button>
      </header>
      {trouble !== null && <TroubleNote lead="Nothing was changed." trouble={trouble} />}
      {unlisted !== null && <p className="trouble">The stock list could not be read. {unlisted}</p>}
      <search className="stock-search no-print" {...landmark('search')}>
        <input
          className="field"
          type="search"
          aria-label="Find in stock"
          placeholder="name, number, place, words of the note"
          maxLength={200}
          autoComplete="off"
          spellCheck={false}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'ArrowDown') return;
            event.preventDefault();
            document.querySelector<HTMLElement>(at('list', 'tbody th button'))?.focus();
          }}
        />
        <select className="field" aria-label="Condition" value={condition} onChange={(event) => setCondition(event.target.value)}>
          <option value="">in any condition</option>
          {stockConditions.map((one) => (
            <option key={one}>{one}</option>
          ))}
        </select>
        {lines !== null && (
          <span className="small soft" role="status">
            {found.length === lines.length ? sayMany(lines.length, 'line') : `${found.length} of ${sayMany(lines.length, 'line')}`},{' '}
            {sayMany(
              found.reduce((sum, { many }) => sum + many, 0),
              'piece',
            )}
          </span>
        )}
      </search>
      {lines !== null && lines.length === 0 && (
        <p className="soft page-hint">
          Nothing is on the list yet. Add a part, or read a table: a row a part, with the headings “what”, “number”, “how many”,
          “condition”, “price”, “money”, “where”, “note”.
        </p>
      )}
      {lines !== null && lines.length > 0 && found.length === 0 && <p className="soft page-hint">Nothing on the list is called that.</p>}
      {found.length > 0 && <Lines lines={found.slice(0, limit)} onDo={setDoing} />}
      {found.length > limit && (
        <button type="button" className="button plain" onClick={() => setLimit(limit + 5 * firstShown)}>
          {found.length - limit} more
        </button>
      )}
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
            {doing.line.many === 0 ? 'None of it lies there.' : `${doing.line.many} lie there by the list.`} What the line said, and when,
            is kept.
          </p>
        </AskDialog>
      )}
    </main>
  );
}

/** Arrow keys go from line to line; up from the first, back to the search. */
const walkLines = (event: KeyboardEvent<HTMLElement>): void => {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (step === 0 || !(event.target instanceof HTMLElement)) return;
  const names = [...event.currentTarget.querySelectorAll<HTMLElement>('tbody th button')];
  const place = names.indexOf(event.target.closest('tr')?.querySelector('th button') as HTMLElement);
  if (place < 0) return;
  event.preventDefault();
  if (place + step < 0) document.querySelector<HTMLElement>(at('search', 'input'))?.focus();
  else names[place + step]?.focus();
};

function Lines({ lines, onDo }: { readonly lines: readonly KeptStockLine[]; onDo(doing: Doing): void }) {
  const { settings } = useShop();
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line has its buttons.
    <div {...landmark('list')} onKeyDown={walkLines}>
      <table className="stock-table">
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col" className="is-figure">
              How many
            </th>
            <th scope="col">Condition</th>
            <th scope="col" className="is-figure">
              Price of one
            </th>
            <th scope="col">Where</th>
            <th scope="col">Note</th>
            <th scope="col" className="no-print">
              <span className="unseen">To do</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.id} className={line.many === 0 ? 'is-none' : undefined}>
              <th scope="row">
                <button type="button" className="link" title="Change this line" onClick={() => onDo({ what: 'edit', line })}>
                  {line.name}
                </button>
                {line.numbers.length > 0 && <span className="stock-detail numbers">{line.numbers.join(', ')}</span>}
                {line.part !== null && line.slot === null && <span className="stock-detail">no longer in the atlas</span>}
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
              <td className="no-print stock-actions">
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
          ))}
        </tbody>
      </table>
    </div>
  );
}
