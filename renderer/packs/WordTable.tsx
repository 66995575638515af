import './words.css';
import { useState } from 'react';
import type { MappedWord, WordProposed } from '../../db/answers.ts';
import { sayMany } from '../values/sayMany.ts';
import { WordRow } from './WordRow.tsx';
import { asTold, keyOf, type Said, wordSaid } from './wordSaid.ts';

interface Props {
  readonly words: readonly WordProposed[];
  /** Whether something else is said than what was looked at. */
  onAltered(altered: boolean): void;
  /** Looks at the pack again with what is said now. */
  onLook(words: readonly MappedWord[]): void;
}

/** Words of a pack that we may have under other ids: what of ours stands in their place, corrected by whoever brings it, and looked at again before it is put in. */
export function WordTable({ words, onAltered, onLook }: Props) {
  const [said, setSaid] = useState<ReadonlyMap<string, Said>>(new Map());
  const saidOf = (word: WordProposed): Said => said.get(keyOf(word)) ?? asTold(word);
  const say = (next: Said): void => {
    setSaid(new Map([...said, [keyOf(next), next]]));
    onAltered(true);
  };
  const groups = [
    { title: 'To be looked at', open: true, of: words.filter(isOpen) },
    { title: 'Taken for ours', open: false, of: words.filter((word) => !isOpen(word) && word.said !== 'own') },
    { title: 'Its own, as in the edition we have', open: false, of: words.filter((word) => !isOpen(word) && word.said === 'own') },
  ];
  const ours = words.filter((word) => saidOf(word).to !== null).length;
  return (
    <section className="pack-words" aria-label="Words we may have already">
      <h4 className="head">Words we may have already</h4>
      <p>
        The pack brings words of its own. {sayMany(ours, 'of them is', 'of them are')} taken for words we have under another id: ours{' '}
        {ours === 1 ? 'stands in its' : 'stand in their'} place, and the pack is held as mapped. No figure is changed.
      </p>
      {groups.map(
        ({ title, open, of }) =>
          of.length > 0 && <WordGroup key={title} title={title} open={open} words={of} saidOf={saidOf} onSay={say} />,
      )}
      {said.size > 0 && (
        <p className="actions">
          <button type="button" className="button main" onClick={() => onLook(words.map((word) => wordSaid(saidOf(word))))}>
            Look again with this
          </button>
        </p>
      )}
    </section>
  );
}

/** Somebody should look at it: something speaks against it, or something may be meant. */
const isOpen = ({ warnings, clashes, to, as, likely, said }: WordProposed): boolean =>
  said === 'new' && (warnings.length > 0 || (to === null && as === null && (clashes || likely.length > 0)));

interface GroupProps {
  readonly title: string;
  readonly open: boolean;
  readonly words: readonly WordProposed[];
  saidOf(word: WordProposed): Said;
  onSay(said: Said): void;
}

/** Rows are made only of what is opened: a vocabulary has hundreds. */
function WordGroup({ title, open, words, saidOf, onSay }: GroupProps) {
  const [shown, setShown] = useState(open);
  return (
    <details open={shown} onToggle={(event) => setShown(event.currentTarget.open)}>
      <summary>
        {title}: {sayMany(words.length, 'word')}
      </summary>
      {shown && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a list that scrolls must be reached by the keys that scroll it.
        <section className="remarks" tabIndex={0} aria-label={title}>
          <table className="page-table">
            <thead>
              <tr>
                <th scope="col">Its word</th>
                <th scope="col">Here</th>
                <th scope="col">Why</th>
              </tr>
            </thead>
            <tbody>
              {words.map((word) => (
                <WordRow key={keyOf(word)} word={word} said={saidOf(word)} onSay={onSay} />
              ))}
            </tbody>
          </table>
        </section>
      )}
    </details>
  );
}
