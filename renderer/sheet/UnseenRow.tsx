import type { Unseen } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';

interface Props {
  readonly unseen: Unseen;
  onChange(): void;
  onRemove(): void;
}

/** Something that could not be told, and why: press it to enter it after all, Delete takes it off the sheet. */
export function UnseenRow({ unseen, onChange, onRemove }: Props) {
  const words = useWords();
  const name = words.featureName(unseen.feature);
  return (
    <li className="entry is-unseen">
      <button
        type="button"
        data-entry={`unseen-${unseen.feature}`}
        className="entry-text"
        aria-label={`${name} ${unseen.why} no answer; enter it`}
        onClick={onChange}
        onKeyDown={(event) => {
          if (event.key !== 'Delete' && event.key !== 'Backspace') return;
          event.preventDefault();
          onRemove();
        }}
      >
        <span className="entry-feature">{name}</span> <span className="entry-value">{unseen.why}</span>{' '}
        <span className="entry-sure">no answer</span>
      </button>
      <button type="button" className="button bare no-print" aria-label={`Remove ${name}: ${unseen.why}`} onClick={onRemove}>
        ×
      </button>
    </li>
  );
}
