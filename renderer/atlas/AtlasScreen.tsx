import './atlas.css';
import { useState } from 'react';
import { at, landmark } from '../look/landmarks.ts';
import type { AtlasPlace } from '../route/route.ts';
import { AtlasIndex } from './AtlasIndex.tsx';
import { AtlasOpening } from './AtlasOpening.tsx';
import { FamilyPageView } from './FamilyPageView.tsx';
import { MakerPageView } from './MakerPageView.tsx';
import { ModelPageView } from './ModelPageView.tsx';
import { PartPageView } from './PartPageView.tsx';
import { SearchHits } from './SearchHits.tsx';

/** Makers, families, models and parts: looked for on the left, read on the right. */
export function AtlasScreen({ place }: { readonly place: AtlasPlace | null }) {
  const [text, setText] = useState('');
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
            value={text}
            onChange={(event) => setText(event.target.value)}
            onKeyDown={(event) => {
              if (event.key !== 'ArrowDown') return;
              event.preventDefault();
              document.querySelector<HTMLElement>(at('list', 'a'))?.focus();
            }}
          />
        </search>
        {text.trim() === '' ? <AtlasIndex place={place} /> : <SearchHits text={text.trim()} />}
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
