import { useRef, useState } from 'react';
import type { KeptStockLine, NodeRef, NumberedPart } from '../../db/answers.ts';
import type { NumberFound } from '../../electron/bridge/number-calls.ts';
import { moneyText } from '../../reasoner/plain/money.ts';
import { inStockPhrase, readyOf } from '../../reasoner/plain/stock-condition.ts';
import { NodeLink } from '../atlas/NodeLink.tsx';
import { useShop } from '../bridge/ShopContext.ts';
import { latestGiven, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { landmark } from '../look/landmarks.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { NumberMeaning } from '../plate/NumberMeaning.tsx';
import { hrefOf } from '../route/route.ts';
import { roleWords } from '../values/roleWords.ts';
import { sayMany } from '../values/sayMany.ts';

/** A part number typed: what it is, where it is used, what took its place, what else fits there, what lies on the shelves. */
export function NumberDialog({ onLeave }: { onLeave(): void }) {
  const [typed, setTyped] = useState('');
  const text = typed.trim();
  const asked = useAsk('number.find', text === '' ? null : { text }, 60);
  const answer = useRef<HTMLDivElement>(null);
  const given = text === '' ? null : latestGiven(asked);
  return (
    <ModalBox label="Part number" className="number-dialog" onLeave={onLeave}>
      <search {...landmark('own undo')}>
        <input
          className="field number-typed"
          type="search"
          aria-label="Part number"
          placeholder="part number, as it is stamped"
          maxLength={200}
          autoComplete="off"
          spellCheck={false}
          // biome-ignore lint/a11y/noAutofocus: the box was asked for, and this is all there is to say in it.
          autoFocus
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            const first = answer.current?.querySelector<HTMLElement>('a, button');
            if ((event.key !== 'ArrowDown' && event.key !== 'Enter') || first === null || first === undefined) return;
            // What stands there while it is looked up is of another number.
            event.preventDefault();
            if (event.key === 'ArrowDown') first.focus();
            else if (asked.state === 'answered' && given?.args.text === text) first.click();
          }}
        />
      </search>
      {asked.state === 'trouble' && <TroubleNote lead="The number could not be looked up." trouble={asked.trouble} />}
      <NumberMeaning text={typed} says="part number" entry={null} partsElsewhere />
      <div ref={answer} className="number-answer" data-state={asked.state}>
        {given === null ? (
          <p className="soft">Spaces, signs and case make no difference.</p>
        ) : (
          <Found found={given.value} text={given.args.text} onPick={setTyped} />
        )}
      </div>
      <div className="actions">
        <button type="button" className="button" onClick={onLeave}>
          Close
        </button>
      </div>
    </ModalBox>
  );
}

function Found({ found, text, onPick }: { readonly found: NumberFound; readonly text: string; onPick(number: string): void }) {
  const inWords = found.stock.filter(({ part }) => part === null);
  return (
    <>
      {found.parts.length === 0 && <p>No part of the atlas has the number “{text}”.</p>}
      {found.parts.length > 1 && <p>{sayMany(found.parts.length, 'part')} have this number.</p>}
      {found.near.length > 0 && (
        <ul className="number-near" aria-label={found.near[0]?.slip === null ? 'Numbers that begin so' : 'Numbers that may be meant'}>
          {found.near.map(({ number, part, slip }) => (
            <li key={`${number} ${part.id}`}>
              <button type="button" className="link numbers" onClick={() => onPick(number)}>
                {number}
              </button>{' '}
              {part.name}
              <span className="soft small">{slip === null ? ', begins so' : `, if in what was typed ${slip}`}</span>
            </li>
          ))}
        </ul>
      )}
      {found.parts.map((one) => (
        <OnePart key={one.part.id} one={one} stock={found.stock} />
      ))}
      {inWords.length > 0 && (
        <section aria-label="Told in words">
          <h3 className="head">On the shelf, told in words</h3>
          <StockLines lines={inWords} />
        </section>
      )}
    </>
  );
}

/** So many models or parts are named at first. */
const shown = 12;

function OnePart({ one, stock }: { readonly one: NumberedPart; readonly stock: readonly KeptStockLine[] }) {
  const words = useWords();
  const lying = (id: string): readonly KeptStockLine[] => stock.filter(({ part }) => part === id);
  const own = stock.filter(({ part }) => part === one.part.id);
  return (
    <section className="number-part" aria-label={one.part.name}>
      <h3>
        <NodeLink node={one.part} />
      </h3>
      <p className="small soft">
        {words.slotName(one.slot)} by {one.maker === null ? 'no named maker' : words.makerName(one.maker)} ·{' '}
        <span className="numbers">{one.numbers.join(', ')}</span>
      </p>
      <dl className="number-facts">
        <dt>In stock</dt>
        <dd>{own.length === 0 ? <span className="soft">none on the list</span> : <StockLines lines={own} />}</dd>
        <dt>Used in</dt>
        <dd>
          {one.sitsIn.length === 0 ? (
            <span className="soft">No model of the atlas lists it.</span>
          ) : (
            <Some
              items={one.sitsIn.map(({ model, role }) => ({
                key: model.id,
                show: (
                  <>
                    <NodeLink node={model} /> <span className="soft small">{roleWords[role]}</span>
                  </>
                ),
              }))}
            />
          )}
        </dd>
        {one.tookThePlaceOf.length > 0 && (
          <>
            <dt>Took the place of</dt>
            <dd>
              <Parts nodes={one.tookThePlaceOf} lying={lying} />
            </dd>
          </>
        )}
        {one.replacedBy.length > 0 && (
          <>
            <dt>Replaced by</dt>
            <dd>
              <Parts nodes={one.replacedBy} lying={lying} />
            </dd>
          </>
        )}
        <dt>Also fits there</dt>
        <dd>
          {one.others.length === 0 ? (
            <span className="soft">Its models list nothing else there.</span>
          ) : (
            <Some
              items={byStock(one.others, lying).map(({ part, in: models }) => ({
                key: part.id,
                show: (
                  <>
                    <NodeLink node={part} /> <Lying lines={lying(part.id)} />
                    <span className="soft small">
                      {models.length === one.sitsIn.length
                        ? 'in all of them'
                        : `in ${models
                            .slice(0, 3)
                            .map(({ model }) => model.name)
                            .join(', ')}${models.length > 3 ? ` and ${models.length - 3} more` : ''}`}
                    </span>
                  </>
                ),
              }))}
            />
          )}
        </dd>
        <dt>Same at every joint</dt>
        <dd>
          {one.alike === null ? (
            <span className="soft">Not known: the atlas does not have all of its dimensions.</span>
          ) : one.alike.length === 0 ? (
            <span className="soft">No other part has its dimensions.</span>
          ) : (
            <Parts nodes={one.alike} lying={lying} />
          )}
        </dd>
      </dl>
    </section>
  );
}

type LyingOf = (id: string) => readonly KeptStockLine[];

/** What may go in as it lies there comes first, then what lies there otherwise. */
const byStock = <One extends { readonly part: NodeRef }>(all: readonly One[], lying: LyingOf): readonly One[] => {
  const rank = ({ part: { id } }: One): number => (readyOf(lying(id)) > 0 ? 2 : inStockPhrase(lying(id)) !== null ? 1 : 0);
  return [...all].sort((a, b) => rank(b) - rank(a));
};

function Lying({ lines }: { readonly lines: readonly KeptStockLine[] }) {
  const said = inStockPhrase(lines);
  return said === null ? null : <b className="number-lying">{said} </b>;
}

function Parts({ nodes, lying }: { readonly nodes: readonly NodeRef[]; readonly lying: LyingOf }) {
  return (
    <Some
      items={nodes.map((node) => ({
        key: node.id,
        show: (
          <>
            <NodeLink node={node} /> <Lying lines={lying(node.id)} />
          </>
        ),
      }))}
    />
  );
}

function Some({ items }: { readonly items: readonly { readonly key: string; readonly show: React.ReactNode }[] }) {
  const [limit, setLimit] = useState(shown);
  return (
    <>
      <ul>
        {items.slice(0, limit).map(({ key, show }) => (
          <li key={key}>{show}</li>
        ))}
      </ul>
      {items.length > limit && (
        <button type="button" className="button plain" onClick={() => setLimit(items.length)}>
          {items.length - limit} more
        </button>
      )}
    </>
  );
}

function StockLines({ lines }: { readonly lines: readonly KeptStockLine[] }) {
  const { settings } = useShop();
  return (
    <ul>
      {lines.map((line) => (
        <li key={line.id}>
          <b>{line.many}</b> {line.part === null ? `${line.name}, ` : ''}
          {line.condition},{' '}
          {line.price === null
            ? 'price not known'
            : moneyText(line.price.amount, line.price.money, settings.money, settings.measures.comma)}
          {line.place === '' ? '' : `, ${line.place}`}{' '}
          <a className="small" href={hrefOf({ screen: 'stock' })}>
            stock list
          </a>
        </li>
      ))}
    </ul>
  );
}
