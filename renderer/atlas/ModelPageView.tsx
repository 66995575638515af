import { Fragment } from 'react';
import type { ModelId } from '../../reasoner/index.ts';
import { useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermText } from '../glossary/TermLink.tsx';
import { roleWords } from '../values/roleWords.ts';
import { ApartLink, EditLink, NodeLink, NodeLinks } from './NodeLink.tsx';
import { PageFrame, sayYears } from './PageFrame.tsx';
import { SourceLine } from './SourceLine.tsx';

export function ModelPageView({ id }: { readonly id: ModelId }) {
  const words = useWords();
  return (
    <PageFrame asked={useAsk('atlas.model', { id })}>
      {(page) => (
        <>
          <p className="head">
            Model of <NodeLink node={page.family} />
            {page.maker !== null && (
              <>
                , <NodeLink node={page.maker} />
              </>
            )}
            <EditLink list="models" id={id} />
          </p>
          <h2 className="page-title">{page.model.name}</h2>
          <dl className="page-facts">
            <dt>Made</dt>
            <dd>{sayYears(page.from, page.to)}</dd>
            {page.generation !== null && (
              <>
                <dt>Generation</dt>
                <dd>{page.generation.name}</dd>
              </>
            )}
            {page.patternOf !== null && (
              <>
                <dt>Pattern of</dt>
                <dd>
                  <NodeLink node={page.patternOf} />
                </dd>
              </>
            )}
            <dt>Shares its core with</dt>
            <dd>
              <NodeLinks nodes={page.sharesCore} none="no other model" />
            </dd>
          </dl>
          <ApartLink subjects={[{ kind: 'model', id }]}>Tell it apart from others</ApartLink>
          <h3 className="head">What may sit in each slot</h3>
          <table className="page-table">
            <thead>
              <tr>
                <th scope="col">Slot</th>
                <th scope="col">Part</th>
                <th scope="col">Role</th>
              </tr>
            </thead>
            {page.slots.map((slot) => (
              <tbody key={slot.slot}>
                {slot.parts.map((one, index) => (
                  <tr key={one.part.id}>
                    {index === 0 && (
                      <th scope="rowgroup" rowSpan={slot.parts.length}>
                        <TermText text={words.slotName(slot.slot)} />
                      </th>
                    )}
                    <td>
                      <NodeLink node={one.part} />
                    </td>
                    <td className="soft">{roleWords[one.role]}</td>
                  </tr>
                ))}
              </tbody>
            ))}
          </table>
          {page.openEnded.length > 0 && (
            <p>
              What else may sit here is not known; the atlas’s list is not whole:{' '}
              {page.openEnded.map((slot, at) => (
                <Fragment key={slot}>
                  {at > 0 && ', '}
                  <TermText text={words.slotName(slot)} />
                </Fragment>
              ))}
              .
            </p>
          )}
          <SourceLine source={page.source} />
        </>
      )}
    </PageFrame>
  );
}
