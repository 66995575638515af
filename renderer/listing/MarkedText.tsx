import type { Find } from '../../reasoner/index.ts';
import type { Chosen } from './listingChoice.ts';

interface Props {
  readonly text: string;
  readonly finds: readonly Find[];
  readonly chosen: readonly Chosen[];
}

/** The listing with every find marked where it stands, by the number it has in the list. */
export function MarkedText({ text, finds, chosen }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a long text scrolls, and must do so by keyboard.
    <section className="listing-text" aria-label="The listing" tabIndex={0}>
      {finds.map((find, index) => (
        <span key={find.from}>
          {text.slice(finds[index - 1]?.to ?? 0, find.from)}
          <mark className={chosen[index]?.taken === true ? 'is-taken' : undefined}>
            {find.text}
            <sup>{index + 1}</sup>
          </mark>
        </span>
      ))}
      {text.slice(finds.at(-1)?.to ?? 0)}
    </section>
  );
}
