import type { ReactNode } from 'react';
import { ModalBox } from './ModalBox.tsx';

export interface DialogChoice {
  readonly label: string;
  readonly tone: 'main' | 'danger' | 'usual';
  run(): void;
}

/** A question that must be settled before going on. Escape and the last choice both mean: leave everything as it is. */
export function AskDialog(props: {
  readonly title: string;
  readonly children: ReactNode;
  readonly choices: readonly DialogChoice[];
  onLeave(): void;
}) {
  return (
    <ModalBox title={props.title} onLeave={props.onLeave}>
      {props.children}
      <div className="actions">
        {props.choices.map((choice) => (
          <button
            key={choice.label}
            type="button"
            className={choice.tone === 'usual' ? 'button' : `button ${choice.tone}`}
            // biome-ignore lint/a11y/noAutofocus: a modal question takes the focus; its main answer is the first stop.
            autoFocus={choice.tone === 'main'}
            onClick={choice.run}
          >
            {choice.label}
          </button>
        ))}
        <button type="button" className="button" onClick={props.onLeave}>
          Cancel
        </button>
      </div>
    </ModalBox>
  );
}
