import './help.css';
import { type MouseEvent, useEffect, useRef } from 'react';
import { setGuided } from '../look/guidedState.ts';
import { keys } from '../look/keys.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { goInstead, hrefOf, type Screen, useScreen } from '../route/route.ts';
import { HelpHere } from './HelpHere.tsx';
import type { HelpPart } from './help.ts';
import { idOf } from './idOf.ts';
import { KeyTable } from './KeyTable.tsx';
import { parts } from './parts.ts';
import { SaidText } from './SaidText.tsx';
import { SectionText } from './SectionText.tsx';
import { goWithinHelp, leaveHelp } from './useHelp.ts';

const show = (head: HTMLElement | null): void => {
  head?.scrollIntoView({ block: 'start' });
  head?.focus({ preventScroll: true });
};

interface Props {
  readonly at: string | null;
  /** The screen behind it, whose keys come first; null where none stands there yet. */
  readonly here: Screen | null;
}

/** What Kinplate answers, and how everything in it is done: headings on the left, what they say on the right. It stands over the window, which waits behind it. */
export function HelpScreen({ at, here }: Props) {
  const behind = useScreen();
  const top = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    show((at === null ? null : document.getElementById(idOf(at))) ?? top.current);
  }, [at]);
  return (
    <ModalBox label="Help" className="help" onLeave={() => leaveHelp(behind)}>
      <header className="help-bar no-print">
        <span className="help-word">Kinplate</span>
        <button type="button" className="button" onClick={() => window.print()}>
          Print
        </button>
        <button type="button" className="button main" onClick={() => leaveHelp(behind)}>
          Back to the screen
        </button>
        <span className="soft small">
          <kbd>Escape</kbd>
        </span>
      </header>
      <nav className="help-side no-print" aria-label="Headings of help">
        <ul>
          {here !== null && (
            <li>
              <Way to="here" now={at}>
                On this screen
              </Way>
            </li>
          )}
          {parts.map((part) => (
            <li key={part.id} className={part.counted && 'is-counted'}>
              <Way to={part.id} now={at}>
                {part.head}
              </Way>
              <ul>
                {part.sections.map(({ id, head }) => (
                  <li key={id}>
                    <Way to={id} now={at}>
                      {head}
                    </Way>
                  </li>
                ))}
              </ul>
            </li>
          ))}
          <li>
            <Way to="keyboard" now={at}>
              Keys
            </Way>
          </li>
        </ul>
      </nav>
      <div className="help-text">
        <h1 className="page-title" ref={top} tabIndex={-1}>
          Help
        </h1>
        {here !== null && <FirstCase />}
        {here !== null && <HelpHere screen={here} />}
        {parts.map((part) => (
          <PartText key={part.id} part={part} />
        ))}
        <Keys />
      </div>
    </ModalBox>
  );
}

/** To another heading of this page. */
function Way({ to, now, children }: { readonly to: string; readonly now: string | null; readonly children: string }) {
  const is = to === now;
  const way = useRef<HTMLAnchorElement>(null);
  useEffect(() => {
    if (is) way.current?.scrollIntoView({ block: 'nearest' });
  }, [is]);
  const go = (event: MouseEvent): void => {
    event.preventDefault();
    if (is) show(document.getElementById(idOf(to)));
    else goWithinHelp(to);
  };
  return (
    <a ref={way} href={hrefOf({ screen: 'help', at: to })} aria-current={is ? 'true' : undefined} onClick={go}>
      {children}
    </a>
  );
}

function PartText({ part: { id, head, lead, counted, sections } }: { readonly part: HelpPart }) {
  return (
    <section className={counted ? 'help-part is-counted' : 'help-part'} aria-labelledby={idOf(id)}>
      <h2 id={idOf(id)} tabIndex={-1}>
        {head}
      </h2>
      {lead !== undefined && (
        <p className="help-lead">
          <SaidText said={lead} />
        </p>
      )}
      {sections.map((section) => (
        <section key={section.id} className="help-section" aria-labelledby={idOf(section.id)}>
          <h3 id={idOf(section.id)} tabIndex={-1}>
            {section.head}
          </h3>
          <SectionText section={section} />
        </section>
      ))}
    </section>
  );
}

/** Begins the guided first case, or goes on with it. */
function FirstCase() {
  const begin = (): void => {
    setGuided('on');
    goInstead({ screen: 'unit' });
  };
  return (
    <p className="help-first no-print">
      <button type="button" className="button" onClick={begin}>
        The guided first case
      </button>{' '}
      <span className="soft">
        Five minutes in the invented atlas, from an empty sheet to the words for the ticket. It can be left and taken up again.
      </span>
    </p>
  );
}

function Keys() {
  return (
    <section className="help-part" aria-labelledby={idOf('keyboard')}>
      <h2 id={idOf('keyboard')} tabIndex={-1}>
        Keys
      </h2>
      <p className="help-lead">Tab goes to everything there is, and Enter does it. On a Mac Cmd does what Ctrl does.</p>
      <KeyTable groups={Object.values(keys)} />
    </section>
  );
}
