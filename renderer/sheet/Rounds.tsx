import { type Counting, standing } from './counting.ts';

interface Props {
  readonly counting: Counting;
  readonly outcome: string;
  say(round: readonly number[]): string;
  onAgain(): void;
  onTake(): void;
  onLeave(): void;
}

/** What the rounds counted so far say, and what may be done with it. Enter takes what is asked for first. */
export function Rounds({ counting, outcome, say, onAgain, onTake, onLeave }: Props) {
  const now = standing(counting);
  const again = now !== 'agreed';
  return (
    <>
      <ol className="rounds">
        {counting.rounds.map((round, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rounds are only ever added at the end, and their number is what they are.
          <li key={index}>
            <span className="soft">round {index + 1}</span> {say(round)}
          </li>
        ))}
      </ol>
      <p className={`counted is-${now}`} role="status">
        {now === 'agreed'
          ? `Counted again, and the same: ${outcome}.`
          : now === 'once'
            ? 'Counted once. Count again to be sure.'
            : 'The last two rounds do not agree. Count once more.'}
      </p>
      <div className="actions">
        <button type="button" className="button" onClick={onLeave}>
          Leave
        </button>
        {again && (
          <button type="button" className="button" onClick={onTake}>
            Enter {outcome} without it
          </button>
        )}

        <button
          key={now + counting.rounds.length}
          type="button"
          className="button main"
          // biome-ignore lint/a11y/noAutofocus: a modal question takes the focus; its main answer is the first stop.
          autoFocus
          onClick={again ? onAgain : onTake}
        >
          {again ? 'Count again' : 'Enter the count'}
        </button>
      </div>
    </>
  );
}
