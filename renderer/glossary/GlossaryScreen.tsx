import './glossary.css';
import { useMemo, useState } from 'react';
import type { FeatureId, ModelId, PartId } from '../../reasoner/index.ts';
import { walkLinks } from '../atlas/walkLinks.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { DrawingKey } from '../drawings/DrawingKey.tsx';
import { FeatureDrawing } from '../drawings/FeatureDrawing.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { asId } from '../route/asId.ts';
import { hrefOf } from '../route/route.ts';
import { bestPart } from './bestPart.ts';
import { searchTerms } from './findTerms.ts';
import { type Term, termOf, terms } from './terms.ts';

/** The trade terms: looked for on the left, read on the right, each with a drawing made from a part of the atlas. */
export function GlossaryScreen({ term: id }: { readonly term: string | null }) {
  const [typed, setTyped] = useState('');
  const found = searchTerms(typed);
  const term = id === null ? undefined : termOf(id);
  return (
    <main className="atlas-screen glossary-screen">
      <h1 className="unseen">Glossary</h1>
      <aside className="atlas-side" aria-label="Look in the glossary">
        <search className="atlas-search">
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
            onKeyDown={(event) => {
              if (event.key !== 'ArrowDown') return;
              event.preventDefault();
              document.querySelector<HTMLElement>('.glossary-list a')?.focus();
            }}
          />
        </search>
        {/* biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line is a link. */}
        <div className="glossary-list" onKeyDown={walkLinks}>
          <p className="small soft" role="status">
            {found.length === 0 ? `No term has to do with “${typed}”.` : `${found.length} of ${terms.length} terms`}
          </p>
          <ul>
            {found.map((one) => (
              <li key={one.id}>
                <a href={hrefOf({ screen: 'glossary', term: one.id })} aria-current={one.id === id ? 'page' : undefined}>
                  {one.term}
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

function TermPage({ term }: { readonly term: Term }) {
  const near = term.near.flatMap((id) => termOf(id) ?? []);
  return (
    <>
      <p className="head">Trade term</p>
      <h2 className="page-title">{term.term}</h2>
      <p className="lead">{term.short}</p>
      <p className="term-more">{term.more}</p>
      <Drawn term={term} />
      <dl className="page-facts">
        {term.also.length > 0 && (
          <>
            <dt>Also met as</dt>
            <dd>{term.also.join(', ')}</dd>
          </>
        )}
        {near.length > 0 && (
          <>
            <dt>Near it</dt>
            <dd>
              {near.map((one, index) => (
                <span key={one.id}>
                  {index > 0 && ', '}
                  <a href={hrefOf({ screen: 'glossary', term: one.id })}>{one.term}</a>
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

const modelsLooked = 24;

/** The drawing that shows the term, of the part of the atlas that shows it best among those of some models all over the atlas. */
function Drawn({ term }: { readonly term: Term }) {
  const words = useWords();
  const feature = asId<FeatureId>(term.drawn.feature);
  const slot = words.feature(feature)?.slot;
  const models = useMemo((): ModelId[] => {
    const all = words.vocabulary.models;
    const step = Math.max(1, Math.ceil(all.length / modelsLooked));
    return all.filter((_, index) => index % step === 0).map(({ id }) => id);
  }, [words]);
  const sitting = useAsk('tree.parts', slot === undefined ? null : { models });
  const parts = useMemo((): PartId[] => {
    const listed = (latest(sitting) ?? []).flatMap((model) => model.slots.filter((one) => one.slot === slot).flatMap((one) => one.parts));
    return [...new Set(listed.map(({ id }) => id))].slice(0, 60);
  }, [sitting, slot]);
  const known = useAsk('apart.parts', parts.length === 0 ? null : { parts });
  const part = useMemo(() => bestPart(latest(known) ?? [], feature, term.drawn.best), [known, feature, term]);
  if (slot === undefined) return <p className="soft">The atlas has no feature by which this could be drawn.</p>;
  const trouble = sitting.state === 'trouble' ? sitting.trouble : known.state === 'trouble' ? known.trouble : null;
  if (trouble !== null) return <TroubleNote lead="No part could be read to draw it from." trouble={trouble} />;
  if (sitting.state === 'waiting' || known.state === 'waiting' || (parts.length > 0 && known.state === 'idle'))
    return <p className="soft">Drawing…</p>;
  return (
    <div className="term-drawn">
      <FeatureDrawing feature={feature} facts={part?.facts ?? {}} />
      <p className="small soft">
        Brought forward: {term.drawn.look}.{' '}
        {part === null ? (
          'No part of the atlas was found to draw it from, so nothing in it has a size.'
        ) : (
          <>
            Drawn from <a href={hrefOf({ screen: 'atlas', page: { kind: 'part', id: part.id } })}>{part.name}</a>.
          </>
        )}
      </p>
      <DrawingKey />
    </div>
  );
}
