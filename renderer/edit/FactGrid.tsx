import { Fragment, type KeyboardEvent, useContext, useId } from 'react';
import type { CellRead } from '../../electron/bridge/edit-calls.ts';
import type { Feature, SlotId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { sayFact } from '../values/sayFact.ts';
import { FormContext } from './FormContext.ts';
import type { JsonObject } from './json.ts';

interface Props {
  readonly slot: SlotId;
  /** What is typed for each feature; nothing where the atlas is to say nothing of it. */
  readonly cells: Readonly<Record<string, string>>;
  readonly read: Readonly<Record<string, CellRead>>;
  /** Of facts that have a source of their own. */
  readonly sources: JsonObject;
  onType(feature: string, typed: string): void;
  onSource(feature: string, source: string | undefined): void;
}

/**
 * What is known of a part, a line a feature, typed as the trade writes it: those of the whole part first, then those of each mating face. Enter and the arrows go from
 * line to line, as Tab does.
 */
export function FactGrid({ slot, cells, read, sources, onType, onSource }: Props) {
  const words = useWords();
  const features = words.featuresOf(slot);
  const ports = words.vocabulary.ports.filter((port) => port.slot === slot);
  const groups = [
    { head: 'The part itself', of: features.filter(({ port }) => port === undefined) },
    ...ports.map(({ id, name }) => ({ head: `Mating face: ${name}`, of: features.filter(({ port }) => port === id) })),
  ].filter(({ of }) => of.length > 0);
  const filled = features.filter(({ id }) => (cells[id] ?? '').trim() !== '');
  return (
    <section className="edit-facts" aria-label="What is known of it">
      <h2 className="head">What is known of it</h2>
      <p className="small soft">
        51.5 ±0.05 · 51,5 · 51.4..51.6 · 2 1/4" · 10 h6 · 9 or 10 · yes · no · ? where it was asked and nobody knows. An empty line says
        nothing. Enter goes on.
      </p>
      <table className="edit-grid" onKeyDown={goOn}>
        <thead className="unseen">
          <tr>
            <th scope="col">Feature</th>
            <th scope="col">Value</th>
            <th scope="col">Reads as</th>
          </tr>
        </thead>
        <tbody>
          {groups.map(({ head, of }) => (
            <Fragment key={head}>
              {groups.length > 1 && (
                <tr>
                  <th scope="rowgroup" colSpan={3} className="edit-grid-head">
                    {head}
                  </th>
                </tr>
              )}
              {of.map((feature) => (
                <FactRow
                  key={feature.id}
                  feature={feature}
                  typed={cells[feature.id] ?? ''}
                  read={read[feature.id]}
                  onType={(typed) => onType(feature.id, typed)}
                />
              ))}
            </Fragment>
          ))}
        </tbody>
      </table>
      {filled.length > 0 && (
        <details>
          <summary>Facts with a source of their own</summary>
          <table className="edit-table">
            <tbody>
              {filled.map(({ id, name }) => (
                <tr key={id}>
                  <th scope="row">{name}</th>
                  <td>
                    <select
                      className="field"
                      aria-label={`source of ${name}`}
                      value={String(sources[id] ?? '')}
                      onChange={({ target }) => onSource(id, target.value === '' ? undefined : target.value)}
                    >
                      <option value="">as the part’s</option>
                      {words.vocabulary.sources.map((source) => (
                        <option key={source.id} value={source.id}>
                          {source.title}
                        </option>
                      ))}
                    </select>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      )}
    </section>
  );
}

function FactRow(props: {
  readonly feature: Feature;
  readonly typed: string;
  readonly read: CellRead | undefined;
  onType(typed: string): void;
}) {
  const { feature, typed, read, onType } = props;
  const words = useWords();
  const id = useId();
  const { faults } = useContext(FormContext);
  const said = typed.trim() === '' ? undefined : read;
  const wrong = said?.ok === false ? said.sentence : (faults.get(`facts.${feature.id}`) ?? null);
  const choices =
    feature.kind === 'choice' ? (feature.options ?? []).map(({ name }) => name) : feature.kind === 'presence' ? ['yes', 'no'] : [];
  return (
    <tr className={wrong === null ? '' : 'wrong'}>
      <th scope="row">
        <label htmlFor={id}>{feature.name}</label>
      </th>
      <td>
        <input
          id={id}
          className="field"
          type="text"
          autoComplete="off"
          spellCheck={false}
          placeholder={hintOf(feature)}
          list={choices.length === 0 ? undefined : `${id}-choices`}
          value={typed}
          aria-invalid={wrong !== null}
          aria-describedby={`${id}-read`}
          onChange={({ target }) => onType(target.value)}
        />
        {choices.length > 0 && (
          <datalist id={`${id}-choices`}>
            {choices.map((choice) => (
              <option key={choice} value={choice} />
            ))}
          </datalist>
        )}
      </td>
      <td id={`${id}-read`} className="edit-reads">
        {wrong !== null ? (
          <span className="field-fault">
            {wrong}
            {said?.ok === false &&
              said.likely.map(({ text, why }) => (
                <button key={text} type="button" className="button plain" title={why} onClick={() => onType(text)}>
                  {text}?
                </button>
              ))}
          </span>
        ) : (
          said?.ok && <span className="soft">{sayFact(feature, said.fact, words.unit)}</span>
        )}
      </td>
    </tr>
  );
}

const hintOf = (feature: Feature): string => {
  switch (feature.kind) {
    case 'measure':
      return feature.unit === 'deg' ? 'degrees' : 'mm';
    case 'count':
      return feature.unit ?? 'how many';
    case 'choice':
      return 'which';
    case 'presence':
      return 'yes or no';
    case 'mark':
      return 'letters | others | blank';
  }
};

const goOn = (event: KeyboardEvent<HTMLTableElement>): void => {
  if (event.ctrlKey || event.metaKey || event.altKey || !(event.target instanceof HTMLInputElement)) return;
  // In a list of choices that is open the arrows are the list’s.
  const step =
    event.key === 'Enter'
      ? event.shiftKey
        ? -1
        : 1
      : event.target.list !== null
        ? 0
        : event.key === 'ArrowDown'
          ? 1
          : event.key === 'ArrowUp'
            ? -1
            : 0;
  if (step === 0) return;
  event.preventDefault();
  const inputs = [...event.currentTarget.querySelectorAll<HTMLInputElement>('input')];
  inputs[inputs.indexOf(event.target) + step]?.focus();
};
