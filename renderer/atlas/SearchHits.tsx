import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { landmark } from '../look/landmarks.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { walkLinks } from '../look/walkLinks.ts';
import { NodeLink } from './NodeLink.tsx';

const limit = 60;

/** Search as you type: names and part numbers, best first, as the store ranks them. */
export function SearchHits({ text }: { readonly text: string }) {
  const asked = useAsk('atlas.search', { text, limit });
  const { mixed } = useWords();
  const hits = latest(asked);
  if (asked.state === 'trouble') return <TroubleNote lead="The search failed." trouble={asked.trouble} />;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every line is a link.
    <div className="hits" {...landmark('list')} onKeyDown={walkLinks}>
      <p className="small soft" role="status">
        {hits === null
          ? 'Looking…'
          : hits.length === 0
            ? `Nothing in the atlas is called “${text}”.`
            : hits.length < limit
              ? `${hits.length} found`
              : `the first ${limit}`}
      </p>
      <ul>
        {(hits ?? []).map((hit) => (
          <li key={`${hit.node.kind}-${hit.node.id}-${hit.matched}`}>
            <NodeLink node={hit.node} />
            {hit.matched !== hit.node.name && <span className="matched"> {hit.matched}</span>}
            <span className="detail">
              {hit.detail.includes(hit.node.kind) ? hit.detail : [hit.node.kind, hit.detail].filter(Boolean).join(', ')}
              {mixed && hit.invented && <span className="invented-tag">invented</span>}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}
