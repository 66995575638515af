import { signOfDecimals } from '../values/figures.ts';

const keys = (): readonly string[] => ['7', '8', '9', '4', '5', '6', '1', '2', '3', signOfDecimals(), '0', '/'];

/** Figures to tap, for hands that should not touch the keyboard. A slash writes fractions of an inch: 2 1/4. */
export function NumberPad({ text, onText }: { readonly text: string; onText(text: string): void }) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset inside the one form of the entry would bring its own frame and legend.
    <div className="number-pad" role="group" aria-label="Figures">
      {keys().map((key) => (
        <button key={key} type="button" className="button" onClick={() => onText(text + key)}>
          {key}
        </button>
      ))}
      <button type="button" className="button" onClick={() => onText(`${text} `)}>
        space
      </button>
      <button type="button" className="button wide" onClick={() => onText(text.slice(0, -1))}>
        take one back
      </button>
    </div>
  );
}
