import type { MakerId } from '../../reasoner/index.ts';
import { useAsk } from '../bridge/useAsk.ts';
import { TermText } from '../glossary/TermLink.tsx';
import { EditLink, NodeLinks } from './NodeLink.tsx';
import { PageFrame } from './PageFrame.tsx';
import { SourceLine } from './SourceLine.tsx';

export function MakerPageView({ id }: { readonly id: MakerId }) {
  return (
    <PageFrame asked={useAsk('atlas.maker', { id })}>
      {(page) => (
        <>
          <p className="head">
            Maker <EditLink list="makers" id={id} />
          </p>
          <h2 className="page-title">{page.maker.name}</h2>
          <dl className="page-facts">
            <dt>Families</dt>
            <dd>
              <NodeLinks nodes={page.families} />
            </dd>
            <dt>Traded as</dt>
            <dd>
              <ul>
                {page.tradeNames.map((name) => (
                  <li key={`${name.name}-${name.from}`}>
                    {name.name}{' '}
                    <span className="soft">
                      {name.from} to {name.to ?? 'today'}
                    </span>
                  </li>
                ))}
              </ul>
              {page.tradeNames.length === 0 && <span className="soft">not known</span>}
            </dd>
            <dt>
              <TermText text="Nameplate" />
            </dt>
            <dd>{page.plateRule ? 'a model carries its name only with this maker’s own plate' : 'a name does not hang on the plate'}</dd>
            <dt>How a name is built</dt>
            <dd>
              {page.grammar.length === 0 ? (
                <span className="soft">the atlas has no grammar for this maker</span>
              ) : (
                <ol className="grammar">
                  {page.grammar.map((line) => (
                    <li key={line}>{line}</li>
                  ))}
                </ol>
              )}
            </dd>
          </dl>
          <SourceLine source={page.source} />
        </>
      )}
    </PageFrame>
  );
}
