import type { WordProposed } from '../../db/answers.ts';
import { fieldWords, listWords } from '../edit/fieldWords.ts';
import { Combobox } from '../look/Combobox.tsx';
import { sayMany } from '../values/sayMany.ts';
import { ownId, type Said } from './wordSaid.ts';

interface Props {
  readonly word: WordProposed;
  readonly said: Said;
  onSay(said: Said): void;
}

/** One word of a pack: what it is called there, what of ours stands in its place, and why. */
export function WordRow({ word, said, onSay }: Props) {
  const { name, list, id, can, options } = word;
  const ours = can.find((one) => one.id === said.to);
  const label = `What “${name}” is here`;
  const take = (to: string): void => onSay({ ...said, to, as: null, options: to === word.to ? said.options : null });
  const leave = (): void => onSay({ ...said, to: null, as: word.clashes ? ownId(word) : null, options: null });
  const own = said.as === null ? 'its own' : `its own, called ${said.as}`;
  const undecided = word.clashes && said.to === null && said.as === null;
  return (
    <tr>
      <th scope="row">
        {name}
        <span className="small soft">
          {' '}
          {listWords[list]?.one ?? list}, {id}
        </span>
      </th>
      <td>
        <span className="word-ours">
          <Combobox
            label={ours === undefined ? `${label}: ${undecided ? 'not decided' : own}` : `${label}: ${ours.name}`}
            placeholder={ours?.name ?? (undecided ? 'not decided' : own)}
            items={can.map((one) => ({ key: one.id, text: one.name, detail: one.id, value: one.id }))}
            none="None of ours that it could be is called that"
            onPick={take}
            onEmptyKey={(key) => {
              if ((key !== 'Backspace' && key !== 'Delete') || said.to === null) return false;
              leave();
              return true;
            }}
          />
          {(said.to !== null || undecided) && (
            <button type="button" className="button bare" aria-label={`Leave “${name}” its own`} onClick={leave}>
              ×
            </button>
          )}
        </span>
        {said.options !== null && options !== null && (
          <details>
            <summary>{sayMany(options.length, 'option')}</summary>
            {options.map((option) => (
              <label key={option.id} className="word-option">
                {option.name}
                <select
                  className="field"
                  value={said.options?.[option.id] ?? ''}
                  onChange={(event) =>
                    onSay({ ...said, options: { ...said.options, [option.id]: event.target.value === '' ? null : event.target.value } })
                  }
                >
                  <option value="">none of ours</option>
                  {(ours?.options ?? []).map((one) => (
                    <option key={one.id} value={one.id}>
                      {one.name}
                    </option>
                  ))}
                </select>
              </label>
            ))}
          </details>
        )}
      </td>
      <td>
        {word.warnings.map((warning) => (
          <p key={warning} className="word-doubt">
            {warning}
          </p>
        ))}
        {word.clashes && word.to !== id && (
          <p className="word-doubt">We have another “{id}” already: say which of ours it is, or leave it its own under another id.</p>
        )}
        {said.to !== null && said.to === word.to && word.why !== null && <p>{word.why}</p>}
        {said.to !== null && said.to === word.to && word.otherwise.length > 0 && (
          <p className="small soft">
            We say otherwise, and ours stands: {word.otherwise.map((field) => fieldWords(list, [field]).label.toLowerCase()).join(', ')}.
          </p>
        )}
        {said.to === null &&
          word.likely.map((one) => (
            <p key={one.id}>
              <button type="button" className="button small" onClick={() => take(one.id)}>
                It is “{one.name}”
              </button>{' '}
              <span className="small soft">{one.why}</span>
            </p>
          ))}
      </td>
    </tr>
  );
}
