import type { SearchHit } from '../../db/answers.ts';
import { type Asked, latest } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { landmark } from '../look/landmarks.ts';
import { NothingYet } from '../look/NothingYet.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { walkLinks } from '../look/walkLinks.ts';
import { hrefOf } from '../route/route.ts';
import { NodeLink } from './NodeLink.tsx';

/** So many hits are asked for. */
export const mostHits = 60;

/** What was found for `text`: names and part numbers, best first, as the store ranks them. */
export function SearchHits({ text, asked }: { readonly text: string; readonly asked: Asked<readonly SearchHit[]> }) {
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
            : hits.length < mostHits
              ? `${hits.length} found`
              : `the first ${mostHits}`}
      </p>
      {hits?.length === 0 && (
        <NothingYet>
          <p>Fewer letters find more; signs and capitals make no difference.</p>
          <p>
            <b>Number</b> in the bar, or <kbd>F2</kbd>, also finds a part number with a slip in it.
          </p>
          <p>
            Or the atlas does not have it:{' '}
            <a href={hrefOf({ screen: 'edit', place: { at: 'new', list: 'parts', like: null } })}>Add a part</a>.
          </p>
        </NothingYet>
      )}
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
