import './glossary.css';
import { type KeyboardEvent, useId, useState } from 'react';
import { hrefOf } from '../route/route.ts';
import { firstTerm } from './findTerms.ts';

/**
 * A text whose first trade term leads to the glossary. On focus or under the pointer its short meaning stands beside it, by the tooltip pattern: it
 * belongs to the link as its description, stays while the pointer is on it, and goes with Escape.
 */
export function TermText({ text }: { readonly text: string }) {
  const found = firstTerm(text);
  if (found === null) return text;
  return (
    <>
      {found.before}
      <TermLink id={found.term.id} form={found.form} short={found.term.short} />
      {found.after}
    </>
  );
}

function TermLink({ id, form, short }: { readonly id: string; readonly form: string; readonly short: string }) {
  const tip = useId();
  const [place, setPlace] = useState<{ readonly left: number; readonly top: number } | null>(null);
  const show = (link: HTMLElement) => {
    const box = link.getBoundingClientRect();
    const below = box.bottom + 110 < window.innerHeight;
    setPlace({ left: Math.max(8, Math.min(box.left, window.innerWidth - 308)), top: below ? box.bottom + 2 : Math.max(8, box.top - 96) });
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the pointer may go from the term to its meaning without losing it.
    <span
      className="term"
      onMouseEnter={(event) => show(event.currentTarget)}
      onMouseLeave={() => setPlace(null)}
      onKeyDown={(event: KeyboardEvent) => {
        if (event.key !== 'Escape' || place === null) return;
        event.stopPropagation();
        setPlace(null);
      }}
    >
      <a
        href={hrefOf({ screen: 'glossary', term: id })}
        aria-describedby={tip}
        onFocus={(event) => show(event.currentTarget)}
        onBlur={() => setPlace(null)}
      >
        {form}
      </a>
      <span
        role="tooltip"
        id={tip}
        className="term-tip"
        hidden={place === null}
        style={place === null ? undefined : { left: place.left, top: place.top }}
      >
        {short}
      </span>
    </span>
  );
}
