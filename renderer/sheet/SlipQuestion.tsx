import { useId, useLayoutEffect, useRef } from 'react';
import type { Feature, LikelySlip, Seen, Slip } from '../../reasoner/index.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { sayValue } from '../values/sayings.ts';

interface Props {
  readonly feature: Feature;
  readonly slip: Extract<Slip, { kind: 'implausible' }>;
  readonly unit: LengthUnit;
  /** Whether the question takes the focus as it comes up: it does where somebody has just entered it. */
  readonly takesFocus: boolean;
  /** What was meant instead. */
  onMeant(value: Seen): void;
  /** It is what was read. */
  onConfirmed(): void;
  /** Back to where it is entered. */
  onReadAgain(): void;
}

/** Asked once about an entry that is hard to believe: the likely slips as buttons, and that it is what was read. */
export function SlipQuestion({ feature, slip, unit, takesFocus, onMeant, onConfirmed, onReadAgain }: Props) {
  const id = useId();
  const first = useRef<HTMLButtonElement>(null);
  // Before it can be seen: Escape may follow at once, and what takes the focus after that takes it from the figure.
  useLayoutEffect(() => {
    if (takesFocus) first.current?.focus();
  }, [takesFocus]);
  const sayMeant = ({ value, why }: LikelySlip): string => {
    const thing = feature.kind === 'count' && feature.unit !== undefined && feature.unit !== 'year' ? ` ${feature.unit}` : '';
    return `${sayValue(feature, value, unit)}${thing}, ${why}`;
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset inside the one form of the entry would bring its own frame and legend.
    <div className="slip no-print" role="group" aria-labelledby={id}>
      <p id={id}>{slip.sentence}</p>
      <div className="slip-answers">
        {slip.likely.map((one, index) => (
          <button
            key={one.sentence}
            ref={index === 0 ? first : undefined}
            type="button"
            className="button"
            onClick={() => onMeant(one.value)}
          >
            {sayMeant(one)}
          </button>
        ))}
        <button ref={slip.likely.length === 0 ? first : undefined} type="button" className="button" onClick={onReadAgain}>
          Read it again
        </button>
        <button type="button" className="button" onClick={onConfirmed}>
          It is what I read
        </button>
      </div>
    </div>
  );
}
