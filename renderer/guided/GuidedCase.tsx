import './guided.css';
import { type ReactNode, useEffect, useState } from 'react';
import { useBench } from '../bench/BenchContext.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { SaidText } from '../help/SaidText.tsx';
import { onCopied } from '../look/copied.ts';
import { setGuided, useGuided } from '../look/guidedState.ts';
import { keys } from '../look/keys.ts';
import { shortcuts } from '../look/presses.ts';
import { goTo, hrefOf, type Screen } from '../route/route.ts';
import { type CaseHere, caseIn } from './firstCase.ts';
import { stepOf, stepsOf } from './stepOf.ts';
import { usePointed } from './usePointed.ts';

/** The guided first case, while it is offered or followed. It says and points; it writes nothing. */
export function GuidedCase({ screen }: { readonly screen: Screen }) {
  const guided = useGuided();
  const { vocabulary } = useWords();
  const [begun, setBegun] = useState(false);
  if (guided === 'off') return null;
  if (guided === 'offered') {
    const begin = (): void => {
      setBegun(true);
      setGuided('on');
      goTo({ screen: 'unit' });
    };
    return (
      <Panel count={null} said={<>New here? In five minutes a first case leads from an empty sheet to the words for the ticket.</>}>
        <button type="button" className="button main" onClick={begin}>
          Begin the first case
        </button>
        <button type="button" className="button" onClick={() => setGuided('off')}>
          Not now
        </button>
      </Panel>
    );
  }
  const one = caseIn(vocabulary);
  if (one === null)
    return (
      <Panel
        count={null}
        said={
          <>
            The first case is about a unit of the invented atlas, which this atlas does not hold. Put it in under{' '}
            <a href={hrefOf({ screen: 'packs' })}>Packs</a>, and it goes on here; it can be taken out again with one press.
          </>
        }
      >
        <Leave />
      </Panel>
    );
  return <Followed one={one} screen={screen} begun={begun} />;
}

interface FollowedProps {
  readonly one: CaseHere;
  readonly screen: Screen;
  /** Begun just now, by a button that is gone: the focus goes to what the first step points at. */
  readonly begun: boolean;
}

function Followed({ one, screen, begun }: FollowedProps) {
  const { sheet, unit, entering } = useBench();
  const [copiedOf, setCopiedOf] = useState<string | null>(null);
  useEffect(() => onCopied(() => setCopiedOf(sheet.id)), [sheet.id]);
  const step = stepOf(one, { screen, sheet, stored: unit.kept !== null, entering, copied: copiedOf === sheet.id });
  const { go } = usePointed(step.point, begun);
  const last = step.number === stepsOf(one);
  return (
    <Panel
      count={last ? 'done' : step.number === 0 ? 'to begin' : `step ${step.number} of ${stepsOf(one) - 1}`}
      said={
        <>
          <SaidText said={step.what} /> <span className="guided-why">{step.why}</span>
        </>
      }
    >
      {step.point !== null && (
        <button
          type="button"
          className="button main"
          aria-keyshortcuts={shortcuts(keys.guided.lines.go)}
          title="Goes there: F4"
          onClick={go}
        >
          Take me there
        </button>
      )}
      <Leave done={last} />
    </Panel>
  );
}

function Leave({ done = false }: { readonly done?: boolean }) {
  return (
    <button type="button" className="button" title="Help goes on with it" onClick={() => setGuided('off')}>
      {done ? 'Close the first case' : 'Leave the first case'}
    </button>
  );
}

interface PanelProps {
  /** Where in the case one is; null before it. */
  readonly count: string | null;
  readonly said: ReactNode;
  /** What can be pressed. */
  readonly children: ReactNode;
}

function Panel({ count, said, children }: PanelProps) {
  return (
    <aside className="guided no-print" aria-label="Guided first case">
      <p className="guided-head">
        <span className="head">First case</span>
        {count !== null && <span className="small">{count}</span>}
      </p>
      <p className="guided-said" role="status">
        {said}
      </p>
      <p className="guided-do">{children}</p>
    </aside>
  );
}
