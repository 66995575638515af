import { type FormEvent, useId, useState } from 'react';
import type { KeptStockLine, StockLine } from '../../db/answers.ts';
import { type StockCondition, stockConditions } from '../../reasoner/plain/stock-condition.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { FormFoot } from '../lists/FormFoot.tsx';
import { PartChoice } from '../lists/PartChoice.tsx';
import { sayPrice } from '../lists/readPrice.ts';
import { metBetween, useSaving } from '../lists/useSaving.ts';
import { FieldsDialog } from '../look/FieldsDialog.tsx';
import { ModalBox } from '../look/ModalBox.tsx';
import { draftOf, lineOf, newDraft, type StockDraft } from './stockDraft.ts';

interface Props {
  /** Null for a new line. */
  readonly line: KeptStockLine | null;
  /** Where parts lie already: offered, so that one place has one name. */
  readonly places: readonly string[];
  onSaved(line: KeptStockLine): void;
  onLeave(): void;
}

/** A line of stock, new or changed. It is saved against what was read; where another is there by now, both are shown (H5). */
export function StockForm({ line, places, onSaved, onLeave }: Props) {
  const id = useId();
  const { money, measures } = useShop().settings;
  const [draft, setDraft] = useState<StockDraft>(line === null ? newDraft : draftOf(line, measures.comma));
  const [fault, setFault] = useState<string | null>(null);
  const change = (part: Partial<StockDraft>) => setDraft({ ...draft, ...part });
  const saving = useSaving<StockLine, KeptStockLine>(line, {
    save: (said, base) =>
      desk.ask('stock.save', {
        ...(base === null ? {} : { id: base.id }),
        line: said,
        who: whoLooks(),
        madeAgainst: base?.version ?? null,
      }),
    there: async (base) => {
      const list = await desk.ask('stock.list', {});
      return list.ok ? (list.value.find((one) => one.id === base?.id) ?? null) : null;
    },
    onSaved: (held) => {
      if (held !== null) onSaved(held);
    },
  });
  const { base, trouble, met } = saving;
  const code = base?.price?.money ?? money?.code ?? null;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = lineOf(draft, { code, money, comma: measures.comma });
    setFault(read.ok ? null : read.sentence);
    if (read.ok) void saving.save(read.line);
  };
  return (
    <ModalBox title={line === null ? 'A part on the shelf' : line.name} className="shop-dialog" onLeave={onLeave}>
      <form aria-label="Line of stock" onSubmit={submit} noValidate>
        <div className="shop-fields">
          <span className="small soft">Part</span>
          <PartChoice
            part={draft.part}
            none="No part by that name or number: tell it in words."
            onChoose={(part) => change(part === null ? { part, words: '' } : { part })}
          />
          {draft.part === null && (
            <>
              <label htmlFor={`${id}-words`}>In words</label>
              <input
                id={`${id}-words`}
                className="field"
                maxLength={300}
                autoComplete="off"
                placeholder="where it is not in the atlas"
                value={draft.words}
                onChange={(event) => change({ words: event.target.value })}
              />
              <label htmlFor={`${id}-number`}>Number on it</label>
              <input
                id={`${id}-number`}
                className="field"
                maxLength={200}
                autoComplete="off"
                spellCheck={false}
                value={draft.number}
                onChange={(event) => change({ number: event.target.value })}
              />
            </>
          )}
          <label htmlFor={`${id}-many`}>How many</label>
          <input
            id={`${id}-many`}
            className="field number"
            inputMode="numeric"
            autoComplete="off"
            value={draft.many}
            onChange={(event) => change({ many: event.target.value })}
          />
          <label htmlFor={`${id}-condition`}>Condition</label>
          <select
            id={`${id}-condition`}
            className="field"
            value={draft.condition}
            onChange={(event) => change({ condition: event.target.value as StockCondition })}
          >
            {stockConditions.map((condition) => (
              <option key={condition}>{condition}</option>
            ))}
          </select>
          <label htmlFor={`${id}-price`}>Price of one{code === null ? '' : `, ${code}`}</label>
          <input
            id={`${id}-price`}
            className="field number"
            inputMode="decimal"
            autoComplete="off"
            placeholder="not known"
            value={draft.price}
            onChange={(event) => change({ price: event.target.value })}
          />
          <label htmlFor={`${id}-place`}>Where it lies</label>
          <input
            id={`${id}-place`}
            className="field"
            maxLength={200}
            autoComplete="off"
            list={`${id}-places`}
            value={draft.place}
            onChange={(event) => change({ place: event.target.value })}
          />
          <datalist id={`${id}-places`}>
            {places.map((place) => (
              <option key={place} value={place} />
            ))}
          </datalist>
          <label htmlFor={`${id}-note`}>Note</label>
          <input
            id={`${id}-note`}
            className="field"
            maxLength={1000}
            autoComplete="off"
            value={draft.note}
            onChange={(event) => change({ note: event.target.value })}
          />
        </div>
        <FormFoot
          noMoney={code === null ? 'prices are' : null}
          fault={fault}
          trouble={trouble}
          save={line === null ? 'Put it on the list' : 'Save'}
          onLeave={onLeave}
        />
      </form>
      {met !== null && (
        <FieldsDialog
          {...metBetween(saving, met.there, 'changed this line')}
          base={saidBy(base ?? met.mine)}
          mine={saidBy(met.mine)}
          theirs={saidBy(met.there)}
          names={fieldNames}
          say={(field, value) => (field === 'price' ? sayPrice(value as StockLine['price'], money, measures.comma) : String(value ?? ''))}
          onSave={(fields) => {
            setDraft(draftOf(fields, measures.comma));
            saving.settle({ save: fields });
          }}
        />
      )}
    </ModalBox>
  );
}

const fieldNames = {
  part: 'Part of the atlas',
  words: 'What it is',
  number: 'Number on it',
  many: 'How many',
  condition: 'Condition',
  price: 'Price of one',
  place: 'Where it lies',
  note: 'Note',
} as const;

const saidBy = ({ part, words, number, many, condition, price, place, note }: StockLine): StockLine => ({
  part,
  words,
  number,
  many,
  condition,
  price,
  place,
  note,
});
