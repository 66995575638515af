import './open-units.css';
import { useEffect, useRef, useState } from 'react';
import { type OpenUnit, useBenchActions, useOpenUnits } from '../bench/BenchContext.ts';
import { titleOf } from '../bench/titleOf.ts';
import { landmark } from '../look/landmarks.ts';
import { CompareOpen } from './CompareOpen.tsx';

/** The open units and builds, one press from each other; nothing where only one is open. One line that moves sideways within itself. */
export function OpenUnits() {
  const { units, shown } = useOpenUnits();
  const { turnTo, close } = useBenchActions();
  const [comparing, setComparing] = useState(false);
  const strip = useRef<HTMLUListElement>(null);
  useEffect(() => {
    strip.current?.querySelector(`[data-unit="${CSS.escape(shown)}"]`)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [shown]);
  if (units.length < 2) return null;
  return (
    <nav className="open-units no-print" aria-label="Open units">
      <ul ref={strip}>
        {units.map((one) => (
          <li key={one.id} data-unit={one.id} className={one.id === shown ? 'is-shown' : undefined}>
            <button
              type="button"
              className="open-unit"
              title={sayOpen(one)}
              aria-current={one.id === shown ? 'true' : undefined}
              {...(one.id === shown ? landmark('shown unit') : {})}
              onClick={() => turnTo(one.id)}
            >
              <span className="open-unit-name">{titleOf(one)}</span>
              {one.number !== null && <span className="open-unit-number"> {one.number}</span>}
              {(one.unsaved || one.elsewhere) && (
                <span className={one.elsewhere ? 'open-unit-mark is-elsewhere' : 'open-unit-mark'}>
                  <span aria-hidden="true"> {one.elsewhere ? '!' : '•'}</span>
                  <span className="unseen">{one.elsewhere ? ', has to be decided' : ', not saved'}</span>
                </span>
              )}
            </button>
            {one.id === shown && (
              <button
                type="button"
                className="open-unit open-unit-close"
                aria-label={`Close ${titleOf(one)}`}
                onClick={() => close(one.id)}
              >
                ×
              </button>
            )}
          </li>
        ))}
      </ul>
      <button type="button" className="open-unit open-units-all" onClick={() => setComparing(true)}>
        All {units.length}…
      </button>
      {comparing && <CompareOpen onLeave={() => setComparing(false)} />}
    </nav>
  );
}

const sayOpen = (one: OpenUnit): string =>
  [
    titleOf(one),
    one.number === null ? null : `case ${one.number}`,
    one.kind === 'planned' ? 'a planned build' : null,
    one.elsewhere ? 'changed elsewhere or not saved: look at it' : one.unsaved ? 'not saved' : null,
  ]
    .filter((words) => words !== null)
    .join(', ');
