import { useId } from 'react';
import type { ShopWord } from '../../db/answers.ts';
import { useWhoList } from '../look/HeldShop.tsx';
import { today } from './sayCase.ts';

/** The word as it is typed. */
export type WordDraft = Readonly<Record<'person' | 'day' | 'decision' | 'ground', string>> & Pick<ShopWord, 'by'>;

/** A new word begins with whose the last one was, and with today. */
export const draftOf = (held: ShopWord | null): WordDraft => ({
  by: held?.by ?? 'shop',
  person: '',
  day: today(),
  decision: '',
  ground: '',
});

export const wordOf = ({ by, person, day, decision, ground }: WordDraft): ShopWord => ({
  by,
  person: person.trim(),
  day,
  decision: decision.trim(),
  ground: ground.trim(),
});

const isWhole = (draft: WordDraft): boolean => {
  const { person, day, decision, ground } = wordOf(draft);
  return [person, day, decision, ground].every((text) => text !== '');
};

const whose = [
  ['shop', 'the shop decided it'],
  ['maker', 'the maker decided it, and the shop was told'],
] as const;

interface Props {
  readonly draft: WordDraft;
  onDraft(draft: WordDraft): void;
  onSave(): void;
  onLeave(): void;
}

/** Who decided, on which day, what, and on what ground: all four, or it is not written down. */
export function WordForm({ draft, onDraft, onSave, onLeave }: Props) {
  const whoList = useWhoList();
  const id = useId();
  const field = (name: Exclude<keyof WordDraft, 'by'>) => ({
    id: `${id}-${name}`,
    className: 'field',
    required: true,
    value: draft[name],
    onChange: (event: { readonly target: { readonly value: string } }) => onDraft({ ...draft, [name]: event.target.value }),
  });
  return (
    <form
      className="word-form no-print"
      aria-label="What was decided"
      onSubmit={(event) => {
        event.preventDefault();
        onSave();
      }}
    >
      <fieldset>
        <legend className="unseen">Who decided</legend>
        {whose.map(([by, words], index) => (
          <label key={by} className="tick">
            <input
              type="radio"
              name={`${id}-by`}
              // biome-ignore lint/a11y/noAutofocus: the form was asked for, and this is where it begins.
              autoFocus={index === 0}
              checked={draft.by === by}
              onChange={() => onDraft({ ...draft, by })}
            />{' '}
            {words}
          </label>
        ))}
      </fieldset>
      <div className="case-fields">
        <label htmlFor={`${id}-person`}>{draft.by === 'shop' ? 'Who decided it' : 'Who told the shop'}</label>
        <input
          {...field('person')}
          maxLength={200}
          autoComplete="off"
          placeholder="a name"
          list={draft.by === 'shop' ? whoList : undefined}
        />
        <label htmlFor={`${id}-day`}>Decided on</label>
        <input {...field('day')} type="date" max={today()} />
        <label htmlFor={`${id}-decision`}>What was decided</label>
        <textarea {...field('decision')} rows={2} maxLength={1000} placeholder="a sentence or two" />
        <label htmlFor={`${id}-ground`}>On what ground</label>
        <input {...field('ground')} maxLength={1000} autoComplete="off" list={`${id}-grounds`} />
        <datalist id={`${id}-grounds`}>
          <option value="measured on the bench" />
          <option value="the maker’s letter of " />
          <option value="the maker’s serial register" />
        </datalist>
      </div>
      <p className="word-actions">
        <button type="submit" className="button main" disabled={!isWhole(draft)}>
          Write it down
        </button>
        <button type="button" className="button" onClick={onLeave}>
          Leave it
        </button>
      </p>
    </form>
  );
}
