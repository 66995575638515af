import { type FormEvent, useId, useState } from 'react';
import type { ShopPrice } from '../../db/answers.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { useShop } from '../bridge/ShopContext.ts';
import { FormFoot } from '../lists/FormFoot.tsx';
import { type ChosenPart, PartChoice } from '../lists/PartChoice.tsx';
import { type AskedPrice, readPrice, sayPrice, typedPrice } from '../lists/readPrice.ts';
import { metBetween, useSaving } from '../lists/useSaving.ts';
import { FieldsDialog } from '../look/FieldsDialog.tsx';
import { landmark } from '../look/landmarks.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { sayWhen } from '../values/sayWhen.ts';

interface Props {
  /** Null where it is to be chosen. */
  readonly part: ChosenPart | null;
  /** What is asked for it now; null for nothing. */
  readonly price: ShopPrice | null;
  /** Null: it is off the list. */
  onSaved(part: ChosenPart, price: ShopPrice | null): void;
  onLeave(): void;
}

/** What is said of a price; without one the part is off the list. */
interface Said {
  readonly price: AskedPrice | null;
  readonly note: string;
}
const saidBy = (held: ShopPrice | null): Said => ({
  price: held === null ? null : { amount: held.amount, money: held.money },
  note: held?.note ?? '',
});

/** What the shop asks for a part: said, changed, taken off the list. It is saved against what was read; where another is there by now, both are shown (H5). */
export function PriceForm(props: Props) {
  const id = useId();
  const { money, measures } = useShop().settings;
  const [part, setPart] = useState(props.part);
  const [typed, setTyped] = useState(typedPrice(saidBy(props.price).price, measures.comma));
  const [note, setNote] = useState(props.price?.note ?? '');
  const [fault, setFault] = useState<string | null>(null);
  const asked = async (of: ChosenPart): Promise<ShopPrice | null> => {
    const reply = await desk.ask('prices.of', { part: of.id });
    return reply.ok ? reply.value.own : null;
  };
  const saving = useSaving<Said, ShopPrice>(props.price, {
    save: async (said, base) => {
      if (part === null) throw new Error('a price is of a part');
      const price = said.price === null ? null : { ...said.price, note: said.note };
      const reply = await desk.ask('prices.set', { part: part.id, price, who: whoLooks(), madeAgainst: base?.version ?? null });
      return reply.ok ? { ok: true, value: price === null ? null : await asked(part) } : reply;
    },
    there: async () => (part === null ? null : await asked(part)),
    onSaved: (held) => part !== null && props.onSaved(part, held),
  });
  const { base, trouble, met } = saving;
  const code = base?.money ?? money?.code ?? null;
  const fill = ({ price, note: words }: Said): void => {
    setTyped(typedPrice(price, measures.comma));
    setNote(words);
  };
  /** What is asked for it already is what is changed. */
  const choose = async (chosen: ChosenPart | null): Promise<void> => {
    const held = chosen === null ? null : await asked(chosen);
    saving.rebase(held);
    if (held !== null || base !== null) fill(saidBy(held));
    setPart(chosen);
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (part === null) return setFault('Say which part of the atlas it is asked for.');
    const read = readPrice(typed, { code, money, comma: measures.comma });
    const nothing = read.ok && read.price === null && base === null;
    setFault(read.ok ? (nothing ? 'Say what is asked for it. A part whose price is not known is not on the list.' : null) : read.sentence);
    if (read.ok && !nothing) void saving.save({ price: read.price, note: read.price === null ? '' : note.trim() });
  };
  const off = base !== null && typed.trim() === '';
  return (
    <ModalBox title={part?.name ?? 'A price'} className="shop-dialog" onLeave={props.onLeave}>
      <form aria-label="The shop’s price" onSubmit={submit} noValidate {...landmark('own undo')}>
        <div className="shop-fields">
          {props.part === null && (
            <>
              <span className="small soft">Part</span>
              <PartChoice part={part} none="No part by that name or number." onChoose={(chosen) => void choose(chosen)} />
            </>
          )}
          <label htmlFor={`${id}-price`}>Asked for one{code === null ? '' : `, ${code}`}</label>
          <input
            id={`${id}-price`}
            className="field number"
            inputMode="decimal"
            autoComplete="off"
            placeholder="not known"
            // biome-ignore lint/a11y/noAutofocus: the box was asked for, and this is what there is to say in it.
            autoFocus={props.part !== null}
            value={typed}
            onFocus={(event) => event.target.select()}
            onChange={(event) => setTyped(event.target.value)}
          />
          <label htmlFor={`${id}-note`}>Note</label>
          <input
            id={`${id}-note`}
            className="field"
            maxLength={300}
            autoComplete="off"
            placeholder="where it is from, what it holds for"
            value={note}
            onChange={(event) => setNote(event.target.value)}
          />
        </div>
        {base !== null && (
          <p className="small soft">
            {sayPrice(saidBy(base).price, money, measures.comma)} is asked since {sayWhen(base.at)}, {base.who || 'nobody said who'}.
          </p>
        )}
        <FormFoot
          noMoney={code === null ? 'the shop asks' : null}
          fault={fault}
          trouble={trouble}
          save={off ? 'Take it off the list' : base === null ? 'Put it on the list' : 'Save'}
          onLeave={props.onLeave}
        />
      </form>
      {met !== null && (
        <FieldsDialog
          {...metBetween(saving, met.there, 'said this price')}
          base={saidBy(base)}
          mine={met.mine}
          theirs={saidBy(met.there)}
          names={{ price: 'Asked for one', note: 'Note' }}
          say={(field, value) =>
            field === 'price' ? sayPrice(value as AskedPrice | null, money, measures.comma) || 'off the list' : String(value)
          }
          onSave={(said) => {
            fill(said);
            saving.settle({ save: said });
          }}
        />
      )}
    </ModalBox>
  );
}
