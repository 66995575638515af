import './glossary.css';
import { type CSSProperties, Fragment, useId, useLayoutEffect, useState } from 'react';
import { createPortal } from 'react-dom';
import type { TradeTerm } from '../../reasoner/index.ts';
import { hrefOf } from '../route/route.ts';
import { TermDrawn } from './TermDrawn.tsx';
import { useGlossary } from './useGlossary.ts';

/** A label whose first trade term leads to the glossary. */
export function TermText({ text }: { readonly text: string }) {
  const found = useGlossary().firstTerm(text);
  if (found === null) return text;
  return (
    <>
      {found.before}
      <TermLink term={found.term} form={found.form} />
      {found.after}
    </>
  );
}

/**
 * A text in which every trade term leads to the glossary where it is first used. These links are for the pointer: a working screen has dozens, and Tab
 * would have to go through them all. By keyboard the same terms are reached through Words in the bar, which lists those on the screen.
 * Never inside a button, a label or a summary.
 */
export function TermsText({ text }: { readonly text: string }) {
  return useGlossary()
    .piecesOf(text)
    .map(({ text: piece, term }, index) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: a piece has no other identity than its place in the text
      <Fragment key={index}>{term === null ? piece : <TermLink term={term} form={piece} byPointer />}</Fragment>
    ));
}

/**
 * On focus or under the pointer the term's short meaning and its drawing stand beside it, by the tooltip pattern: the meaning belongs to the link as its
 * description, stays while the pointer is on it, and goes with Escape.
 */
function TermLink({ term, form, byPointer = false }: { readonly term: TradeTerm; readonly form: string; readonly byPointer?: boolean }) {
  const tip = useId();
  const [place, setPlace] = useState<CSSProperties | null>(null);
  const shown = place !== null;
  const show = (link: HTMLElement) => {
    const box = link.getBoundingClientRect();
    const left = Math.max(8, Math.min(box.left, window.innerWidth - tipSize.width - 8));
    const below = box.bottom + tipSize.height < window.innerHeight || box.top < tipSize.height;
    setPlace(below ? { left, top: box.bottom + 2 } : { left, bottom: window.innerHeight - box.top + 2 });
  };
  // Before it is painted: Escape struck in that moment is meant for it, and for nothing beneath.
  useLayoutEffect(() => {
    if (!shown) return;
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'Escape') return;
      event.stopPropagation();
      setPlace(null);
    };
    window.addEventListener('keydown', onKey, true);
    return () => window.removeEventListener('keydown', onKey, true);
  }, [shown]);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the pointer may go from the term to its meaning without losing it.
    <span className="term" onMouseEnter={(event) => show(event.currentTarget)} onMouseLeave={() => setPlace(null)}>
      <a
        href={hrefOf({ screen: 'glossary', term: term.id })}
        tabIndex={byPointer ? -1 : undefined}
        aria-describedby={place === null ? undefined : tip}
        onFocus={(event) => show(event.currentTarget)}
        onBlur={() => setPlace(null)}
      >
        {form}
      </a>
      {place !== null &&
        // Beside the text and not in it: a drawing is no part of a sentence, nor of the name of what the sentence heads.
        createPortal(
          <div role="tooltip" id={tip} className="term-tip no-print" style={place}>
            {term.short}
            <div className="term-tip-drawn" aria-hidden="true">
              <TermDrawn term={term} bare />
            </div>
          </div>,
          document.querySelector('main') ?? document.body,
        )}
    </span>
  );
}

/** Room for meaning and drawing, px. */
const tipSize = { width: 300, height: 280 };
