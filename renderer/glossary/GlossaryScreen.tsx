import './glossary.css';
import { useState } from 'react';
import type { TradeTerm } from '../../reasoner/index.ts';
import { landmark } from '../look/landmarks.ts';
import { onSearchKey } from '../look/searchKeys.ts';
import { walkLinks } from '../look/walkLinks.ts';
import { hrefOf } from '../route/route.ts';
import { TermDrawn } from './TermDrawn.tsx';
import { useGlossary } from './useGlossary.ts';

/** The trade terms: looked for on the left, read on the right, each with a drawing made from a part of the atlas. */
export function GlossaryScreen({ term: id }: { readonly term: string | null }) {
  const [typed, setTyped] = useState('');
  const { terms, search, term: termOf } = useGlossary();
  const found = search(typed);
  const term = id === null ? undefined : termOf(id);
  return (
    <main className="atlas-screen glossary-screen" {...landmark('own undo')}>
      <h1 className="unseen">Glossary</h1>
      <aside className="atlas-side" aria-label="Look in the glossary">
        <search className="atlas-search" {...landmark('search')}>
          <input
            className="field"
            type="search"
            aria-label="Trade term"
            placeholder="a term, or a word of its meaning"
            maxLength={100}
            spellCheck={false}
            autoComplete="off"
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
            onKeyDown={(event) => onSearchKey(event, 'a', (first) => first?.click())}
          />
        </search>
        {/* biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line is a link. */}
        <div className="glossary-list" {...landmark('list')} onKeyDown={walkLinks}>
          <p className="small soft" role="status">
            {found.length === 0 ? `No term has to do with “${typed}”.` : `${found.length} of ${terms.length} terms`}
          </p>
          <ul>
            {found.map((one) => (
              <li key={one.id}>
                <a href={hrefOf({ screen: 'glossary', term: one.id })} aria-current={one.id === id ? 'page' : undefined}>
                  {one.name}
                </a>
              </li>
            ))}
          </ul>
        </div>
      </aside>
      <article className="atlas-page">{term === undefined ? <Opening missing={id} /> : <TermPage key={term.id} term={term} />}</article>
    </main>
  );
}

function Opening({ missing }: { readonly missing: string | null }) {
  return (
    <>
      <h2 className="page-title">Glossary</h2>
      {missing !== null && <p role="alert">The glossary has no term “{missing}”.</p>}
      <p className="lead">The trade terms this program uses, in plain words, each with a drawing computed from a part of the atlas.</p>
      <p className="soft">Pick one on the left. On any other screen, Words in the bar lists the terms that stand there.</p>
      <p className="small soft">Source of all meanings: common practice, no source.</p>
    </>
  );
}

function TermPage({ term }: { readonly term: TradeTerm }) {
  const { term: termOf } = useGlossary();
  const { alsoCalled = [] } = term;
  const near = (term.near ?? []).flatMap((id) => termOf(id) ?? []);
  return (
    <>
      <p className="head">Trade term</p>
      <h2 className="page-title">{term.name}</h2>
      <p className="lead">{term.short}</p>
      <p className="term-more">{term.more}</p>
      <TermDrawn term={term} />
      <dl className="page-facts">
        {alsoCalled.length > 0 && (
          <>
            <dt>Also met as</dt>
            <dd>{alsoCalled.join(', ')}</dd>
          </>
        )}
        {near.length > 0 && (
          <>
            <dt>Near it</dt>
            <dd>
              {near.map((one, index) => (
                <span key={one.id}>
                  {index > 0 && ', '}
                  <a href={hrefOf({ screen: 'glossary', term: one.id })}>{one.name}</a>
                </span>
              ))}
            </dd>
          </>
        )}
      </dl>
      <p className="small soft">Source: common practice, no source.</p>
    </>
  );
}
