import './atlas.css';
import { useState } from 'react';
import { useAsk, useSettled } from '../bridge/useAsk.ts';
import { landmark } from '../look/landmarks.ts';
import { onSearchKey, useEnterOpens } from '../look/searchKeys.ts';
import { type AtlasPlace, goTo } from '../route/route.ts';
import { AtlasIndex } from './AtlasIndex.tsx';
import { AtlasOpening } from './AtlasOpening.tsx';
import { FamilyPageView } from './FamilyPageView.tsx';
import { MakerPageView } from './MakerPageView.tsx';
import { ModelPageView } from './ModelPageView.tsx';
import { pageOf } from './NodeLink.tsx';
import { PartPageView } from './PartPageView.tsx';
import { mostHits, SearchHits } from './SearchHits.tsx';

/** Makers, families, models and parts: looked for on the left, read on the right. */
export function AtlasScreen({ place }: { readonly place: AtlasPlace | null }) {
  const [typed, setTyped] = useState('');
  const text = typed.trim();
  const search = text === '' ? null : { text, limit: mostHits };
  const asked = useAsk('atlas.search', search);
  const opensFirst = useEnterOpens(search, useSettled(asked, search)?.flatMap(({ node }) => pageOf(node) ?? []) ?? null, goTo);
  return (
    <main className="atlas-screen" {...landmark('own undo')}>
      <h1 className="unseen">Atlas</h1>
      <aside className="atlas-side" aria-label="Look in the atlas">
        <search className="atlas-search" {...landmark('search')}>
          <input
            className="field"
            type="search"
            aria-label="Name or part number"
            placeholder="name or part number"
            maxLength={200}
            spellCheck={false}
            autoComplete="off"
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
            onKeyDown={(event) => onSearchKey(event, 'a', opensFirst)}
          />
        </search>
        {search === null ? <AtlasIndex place={place} /> : <SearchHits text={text} asked={asked} />}
      </aside>
      <article className="atlas-page" aria-live="off">
        <Page place={place} />
      </article>
    </main>
  );
}

function Page({ place }: { readonly place: AtlasPlace | null }) {
  if (place === null) return <AtlasOpening />;
  switch (place.kind) {
    case 'maker':
      return <MakerPageView key={place.id} id={place.id} />;
    case 'family':
      return <FamilyPageView key={place.id} id={place.id} beside={place.beside} />;
    case 'model':
      return <ModelPageView key={place.id} id={place.id} />;
    case 'part':
      return <PartPageView key={place.id} id={place.id} />;
  }
}
