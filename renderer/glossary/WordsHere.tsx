import './glossary.css';
import { useEffect, useId, useRef, useState } from 'react';
import type { TradeTerm } from '../../reasoner/index.ts';
import { hrefOf, type Route } from '../route/route.ts';
import { TermDrawn } from './TermDrawn.tsx';
import { useGlossary } from './useGlossary.ts';

/**
 * The trade terms that stand on the screen now, each with its meaning and the way to its page in the glossary. Looked for when it is opened, so that
 * every screen has it, whatever it shows.
 */
export function WordsHere({ route }: { readonly route: Route }) {
  const { termsIn } = useGlossary();
  const [open, setOpen] = useState(false);
  const [terms, setTerms] = useState<readonly TradeTerm[]>([]);
  const [drawn, setDrawn] = useState<TradeTerm | null>(null);
  const button = useRef<HTMLButtonElement>(null);
  const panel = useId();
  const address = hrefOf(route);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another screen has other terms.
  useEffect(() => setOpen(false), [address]);
  const turn = () => {
    // biome-ignore lint/performance/useDomNodeTextContent: textContent would run the words of neighbouring elements together.
    const here = open ? terms : termsIn(document.querySelector('main')?.innerText ?? '');
    setTerms(here);
    setDrawn(here[0] ?? null);
    setOpen(!open);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape closes what the button opened.
    <div
      className="words-here no-print"
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !open) return;
        event.stopPropagation();
        setOpen(false);
        button.current?.focus();
      }}
      onBlur={(event) => {
        if (event.relatedTarget instanceof Node && !event.currentTarget.contains(event.relatedTarget)) setOpen(false);
      }}
    >
      <button
        ref={button}
        type="button"
        className="button plain"
        aria-expanded={open}
        aria-controls={open ? panel : undefined}
        onClick={turn}
      >
        Words
      </button>
      {open && (
        <section id={panel} className="words-panel" aria-label="Trade terms on this screen">
          <p>
            <a href={hrefOf({ screen: 'glossary', term: null })}>The whole glossary</a>
          </p>
          {terms.length === 0 ? (
            <p className="soft small">No trade term stands on this screen.</p>
          ) : (
            <ul>
              {terms.map((each) => (
                <li key={each.id} onMouseEnter={() => setDrawn(each)}>
                  <a href={hrefOf({ screen: 'glossary', term: each.id })} onFocus={() => setDrawn(each)}>
                    {each.name}
                  </a>{' '}
                  <span className="soft small">{each.short}</span>
                </li>
              ))}
            </ul>
          )}
          {drawn !== null && (
            <div className="words-drawn">
              <p className="small">
                <b>{drawn.name}</b> {drawn.drawn !== undefined && <span className="soft">{drawn.drawn.look}</span>}
              </p>
              <TermDrawn key={drawn.id} term={drawn} bare />
            </div>
          )}
        </section>
      )}
    </div>
  );
}
