import { useId, useState } from 'react';
import type { Feature, NameId, PartId, Plan } from '../../reasoner/index.ts';
import { PartText } from '../bridge/PartText.tsx';
import { latest, unanswered, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { Combobox } from '../look/Combobox.tsx';
import { asId } from '../route/asId.ts';
import { unitSign } from '../values/lengths.ts';
import type { ConstraintsDraft, RequireDraft } from './constraintsDraft.ts';

interface Props {
  readonly draft: ConstraintsDraft;
  onDraft(draft: ConstraintsDraft): void;
  readonly plan: Plan | null;
  readonly stock: readonly PartId[];
  onStock(stock: readonly PartId[]): void;
}

/** What a completed build must keep to; what is left alone asks for nothing. */
export function ConstraintsForm({ draft, onDraft, plan, stock, onStock }: Props) {
  const words = useWords();
  const id = useId();
  const change = (part: Partial<ConstraintsDraft>) => onDraft({ ...draft, ...part });
  const kept = [...(plan?.honest ?? []), ...(plan?.open ?? [])].flatMap((name) => plan?.names.find((one) => one.name.id === name) ?? []);
  return (
    <div className="constraints">
      <h2 className="head">Fill the open slots</h2>
      <label htmlFor={`${id}-maker`}>Parts added are of</label>
      <select
        id={`${id}-maker`}
        className="field"
        value={draft.maker}
        onChange={(event) => change({ maker: event.target.value === '' ? '' : asId(event.target.value) })}
      >
        <option value="">any maker</option>
        {words.vocabulary.makers.map((maker) => (
          <option key={maker.id} value={maker.id}>
            {maker.name} only
          </option>
        ))}
      </select>

      <label htmlFor={`${id}-most`}>Operations at most</label>
      <input
        id={`${id}-most`}
        className="field number"
        inputMode="numeric"
        autoComplete="off"
        placeholder="as many as it takes"
        value={draft.atMost}
        onChange={(event) => change({ atMost: event.target.value })}
      />

      <label htmlFor={`${id}-keep`}>Keep the name</label>
      <select
        id={`${id}-keep`}
        className="field"
        value={draft.keep}
        onChange={(event) => change({ keep: event.target.value === '' ? '' : asId<NameId>(event.target.value) })}
      >
        <option value="">whatever it then is</option>
        {kept.map(({ name }) => (
          <option key={name.id} value={name.id}>
            {name.text}
          </option>
        ))}
      </select>

      <label htmlFor={`${id}-leave`}>May be left open</label>
      <select
        id={`${id}-leave`}
        className="field"
        value={draft.mayLeave}
        onChange={(event) => change({ mayLeave: event.target.value as ConstraintsDraft['mayLeave'] })}
      >
        <option value="nothing">nothing: every joint is settled</option>
        <option value="measuring">parts still to be measured and chosen</option>
        <option value="unknowns">that, and what is not known</option>
      </select>

      <fieldset className="span-two">
        <legend>Parts added must have</legend>
        <ul className="required">
          {draft.require.map((each, index) => {
            const set = (text: string) => change({ require: draft.require.map((one, at) => (at === index ? { ...one, text } : one)) });
            return (
              <li key={each.feature}>
                <span>
                  {words.slotName(each.slot)}: {words.featureName(each.feature)}
                </span>
                <RequiredValue required={each} feature={words.feature(each.feature)} onText={set} />
                <button
                  type="button"
                  className="button bare"
                  aria-label={`Ask no longer for ${words.featureName(each.feature)}`}
                  onClick={() => change({ require: draft.require.filter((_, at) => at !== index) })}
                >
                  ✕
                </button>
              </li>
            );
          })}
        </ul>
        <Combobox
          label="Add a feature the parts must have"
          placeholder="add a feature: inlet flange"
          items={words.vocabulary.features
            .filter(({ id: feature }) => !draft.require.some((each) => each.feature === feature))
            .map((feature) => ({ key: feature.id, text: feature.name, detail: words.slotName(feature.slot), value: feature }))}
          none="The atlas knows no such feature."
          onPick={(feature) =>
            change({ require: [...draft.require, { slot: feature.slot, feature: feature.id, text: firstText(feature) }] })
          }
        />
      </fieldset>

      <StockList stock={stock} onStock={onStock}>
        <label className="tick">
          <input
            type="checkbox"
            checked={draft.onlyStock}
            disabled={stock.length === 0}
            onChange={(event) => change({ onlyStock: event.target.checked })}
          />{' '}
          take from stock only
        </label>
      </StockList>
    </div>
  );
}

const firstText = (feature: Feature): string =>
  feature.kind === 'choice' ? (feature.options?.[0]?.id ?? '') : feature.kind === 'presence' ? 'yes' : '';

function RequiredValue(props: { readonly required: RequireDraft; readonly feature: Feature | undefined; onText(text: string): void }) {
  const { required, feature, onText } = props;
  const words = useWords();
  if (feature === undefined) return null;
  if (feature.kind === 'choice' || feature.kind === 'presence') {
    const options =
      feature.kind === 'choice'
        ? (feature.options ?? []).map((option) => [option.id, option.name] as const)
        : ([
            ['yes', 'there'],
            ['no', 'not there'],
          ] as const);
    return (
      <select className="field" aria-label={feature.name} value={required.text} onChange={(event) => onText(event.target.value)}>
        {options.map(([value, name]) => (
          <option key={value} value={value}>
            {name}
          </option>
        ))}
      </select>
    );
  }
  return (
    <input
      className="field number"
      aria-label={feature.name}
      autoComplete="off"
      placeholder={
        feature.kind === 'mark'
          ? 'letters, or nothing for none'
          : feature.kind === 'count'
            ? '6, or 6 to 8'
            : feature.unit === 'deg'
              ? 'degrees'
              : unitSign(words.unit)
      }
      value={required.text}
      onChange={(event) => onText(event.target.value)}
    />
  );
}

interface StockProps {
  readonly stock: readonly PartId[];
  onStock(stock: readonly PartId[]): void;
  readonly children: React.ReactNode;
}

/** Parts the shop has: they cost nothing in every build shown. At first those on the stock list that may go in as they are; what is changed here holds until the window is closed. */
function StockList({ stock, onStock, children }: StockProps) {
  const [typed, setTyped] = useState('');
  const search = typed.trim() === '' ? null : { text: typed, limit: 40 };
  const searched = useAsk('atlas.search', search, 60);
  const hits = latest(searched) ?? [];
  return (
    <fieldset className="span-two">
      <legend>In stock</legend>
      <ul className="required">
        {stock.map((part) => (
          <li key={part}>
            <span>
              <PartText part={part} />
            </span>
            <span />
            <button
              type="button"
              className="button bare"
              aria-label={`Not in stock: ${part}`}
              onClick={() => onStock(stock.filter((one) => one !== part))}
            >
              ✕
            </button>
          </li>
        ))}
      </ul>
      <Combobox
        label="Add a part in stock"
        placeholder="add a part by name or number"
        filtered
        searching={unanswered(searched, search)}
        items={hits.flatMap(({ node, detail }) =>
          node.kind === 'part' && !stock.includes(node.id) ? [{ key: node.id, text: node.name, detail, value: node.id }] : [],
        )}
        none={typed === '' ? 'Type a name or a number.' : 'No part by that name or number.'}
        onType={setTyped}
        onPick={(part) => onStock([...stock, part])}
      />
      {children}
    </fieldset>
  );
}
