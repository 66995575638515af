import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { Feature } from '../../reasoner/index.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { sayCount } from '../values/sayings.ts';
import {
  type Counting,
  counted,
  countedAgain,
  countingOf,
  roundBegunAgain,
  roundDone,
  sayRounds,
  standing,
  tally,
  tapped,
  tapTakenBack,
} from './counting.ts';
import { Rounds } from './Rounds.tsx';

export interface Counted {
  readonly feature: Feature;
  readonly from: number;
  readonly to: number;
  /** How it was counted, for the record. */
  readonly note: string;
}

interface Props {
  /** What is counted in one go round: main blades, and splitter blades apart. */
  readonly features: readonly Feature[];
  readonly where: string;
  onCounted(counts: readonly Counted[]): void;
  onLeave(): void;
}

/**
 * Counting by tapping: a large target for each kind, or its number key, as the blades pass; then once more round to be sure.
 * Backspace takes a tap back, Enter ends the round, Escape leaves.
 */
export function WheelCounter({ features, where, onCounted, onLeave }: Props) {
  const [counting, setCounting] = useState<Counting>(() => countingOf(features.length));
  const now = standing(counting);
  // The target that goes on counting takes the focus back after every answer.
  const first = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (now === 'counting') first.current?.focus();
  }, [now]);

  const kindName = (feature: Feature): string => feature.unit ?? feature.name;
  const found = (now === 'counting' ? [] : counted(counting)).map((range, kind) => ({ range, feature: features[kind] as Feature }));
  const sayRound = (round: readonly number[]): string => features.map((feature, kind) => `${round[kind]} ${kindName(feature)}`).join(', ');
  const onKeyDown = (event: KeyboardEvent) => {
    const kind = Number(event.key) - 1;
    if (/^[1-9]$/.test(event.key) && kind < features.length) {
      event.preventDefault();
      if (!event.repeat) setCounting((before) => tapped(before, kind));
    } else if (event.key === 'Backspace') {
      event.preventDefault();
      setCounting(tapTakenBack);
    } else if (event.key === 'Enter' && now === 'counting') {
      // On a target Enter would count; it ends the round wherever the focus is.
      event.preventDefault();
      setCounting(roundDone);
    }
  };
  const counts = tally(counting);

  return (
    <ModalBox className="wheel-counter" title={`Count round the ${where}`} onKeyDown={onKeyDown} onLeave={onLeave}>
      {now === 'counting' ? (
        <>
          <p className="soft">
            {counting.rounds.length === 0
              ? 'Mark where you begin. Tap for each one as it passes, once round.'
              : 'Once more round, from another mark; the first count stays hidden until you are done.'}
          </p>
          <div className="count-targets">
            {features.map((feature, kind) => (
              <button
                key={feature.id}
                ref={kind === 0 ? first : undefined}
                type="button"
                className="count-target"
                aria-keyshortcuts={String(kind + 1)}
                onClick={() => setCounting((before) => tapped(before, kind))}
              >
                <span className="count-now" aria-hidden="true">
                  {counts[kind]}
                </span>
                <span>{kindName(feature)}</span>
                <span className="count-key" aria-hidden="true">
                  {kind + 1}
                </span>
              </button>
            ))}
          </div>
          <p className="unseen" role="status">
            {sayRound(counts)}
          </p>
          <div className="actions">
            <button
              type="button"
              className="button"
              disabled={counting.taps.length === 0}
              aria-keyshortcuts="Backspace"
              onClick={() => setCounting(tapTakenBack)}
            >
              Take one back
            </button>
            <button type="button" className="button" disabled={counting.taps.length === 0} onClick={() => setCounting(roundBegunAgain)}>
              Begin this round again
            </button>
            <button type="button" className="button" onClick={onLeave}>
              Leave
            </button>
            <button
              type="button"
              className="button main"
              disabled={counting.taps.length === 0}
              aria-keyshortcuts="Enter"
              onClick={() => setCounting(roundDone)}
            >
              Once round
            </button>
          </div>
        </>
      ) : (
        <Rounds
          counting={counting}
          say={sayRound}
          outcome={found.map(({ range, feature }) => `${sayCount(range.from, range.to)} ${kindName(feature)}`).join(', ')}
          onAgain={() => setCounting(countedAgain)}
          onTake={() => onCounted(found.map(({ range, feature }, kind) => ({ feature, ...range, note: sayRounds(counting, kind) })))}
          onLeave={onLeave}
        />
      )}
    </ModalBox>
  );
}
