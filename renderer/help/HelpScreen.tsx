import './help.css';
import { type MouseEvent, useEffect, useRef } from 'react';
import { type KeyGroup, keys } from '../look/keys.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { hrefOf, useScreen } from '../route/route.ts';
import type { HelpPart, HelpSection } from './help.ts';
import { parts } from './parts.ts';
import { SaidText } from './SaidText.tsx';
import { readLabel } from './said.ts';
import { goWithinHelp, leaveHelp } from './useHelp.ts';

const idOf = (at: string): string => `help-${at}`;

const show = (head: HTMLElement | null): void => {
  head?.scrollIntoView({ block: 'start' });
  head?.focus({ preventScroll: true });
};

/** What Kinplate answers, and how everything in it is done: headings on the left, what they say on the right. It stands over the window, which waits behind it. */
export function HelpScreen({ at }: { readonly at: string | null }) {
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
        <SectionText key={section.id} section={section} />
      ))}
    </section>
  );
}

function SectionText({ section: { id, head, lead, begins, steps, notes } }: { readonly section: HelpSection }) {
  return (
    <section className="help-section" aria-labelledby={idOf(id)}>
      <h3 id={idOf(id)} tabIndex={-1}>
        {head}
      </h3>
      {lead !== undefined && (
        <p>
          <SaidText said={lead} />
        </p>
      )}
      {begins !== undefined && (
        <p className="help-begins">
          Begins at {/* Back from there leads to this heading again. */}
          <a href={hrefOf(begins.at)} onClick={() => goWithinHelp(id)}>
            {readLabel(begins.is)}
          </a>
        </p>
      )}
      {steps !== undefined && (
        <ol>
          {steps.map((said, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: steps are a list that never changes.
            <li key={index}>
              <SaidText said={said} />
            </li>
          ))}
        </ol>
      )}
      {notes !== undefined && (
        <ul>
          {notes.map((said, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: as above.
            <li key={index}>
              <SaidText said={said} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function Keys() {
  return (
    <section className="help-part" aria-labelledby={idOf('keyboard')}>
      <h2 id={idOf('keyboard')} tabIndex={-1}>
        Keys
      </h2>
      <p className="help-lead">Tab goes to everything there is, and Enter does it. On a Mac Cmd does what Ctrl does.</p>
      <table className="help-keys">
        <thead className="unseen">
          <tr>
            <th scope="col">Key</th>
            <th scope="col">What it does</th>
          </tr>
        </thead>
        {(Object.entries(keys) as [string, KeyGroup][]).map(([id, { head, lines }]) => (
          <tbody key={id}>
            <tr>
              <th scope="rowgroup" colSpan={2} className="head">
                {head}
              </th>
            </tr>
            {Object.entries(lines).map(([line, said]) => (
              <tr key={line}>
                <th scope="row">
                  <SaidText said={[{ keys: said }]} />
                </th>
                <td>{said.does}</td>
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}
