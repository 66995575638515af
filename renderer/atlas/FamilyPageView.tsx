import type { DescentAnswer } from '../../db/answers.ts';
import type { FamilyId } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermText } from '../glossary/TermLink.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { asId } from '../route/asId.ts';
import { goTo, hrefOf } from '../route/route.ts';
import { ApartLink, EditLink, NodeLink, NodeLinks } from './NodeLink.tsx';
import { PageFrame, sayYears } from './PageFrame.tsx';
import { SourceLine } from './SourceLine.tsx';

/** A family: what sets it apart, where it comes from, what came of it, and how it is related to another. */
export function FamilyPageView({ id, beside }: { readonly id: FamilyId; readonly beside: FamilyId | null }) {
  const words = useWords();
  const descent = latest(useAsk('atlas.descent', { family: id }));
  return (
    <PageFrame asked={useAsk('atlas.family', { id })}>
      {(page) => (
        <>
          <p className="head">
            Family of {page.maker === null ? 'no maker’s name' : <NodeLink node={page.maker} />} <EditLink list="families" id={id} />
          </p>
          <h2 className="page-title">{page.family.name}</h2>
          <p className="lead">{page.about}</p>
          <dl className="page-facts">
            <dt>Made</dt>
            <dd>{sayYears(page.from, page.to)}</dd>
            <dt>Models</dt>
            <dd>
              <NodeLinks nodes={page.models} />
            </dd>
            {page.generations.length > 0 && (
              <>
                <dt>
                  <TermText text="Generations" />
                </dt>
                <dd>
                  <NodeLinks nodes={page.generations} />
                </dd>
              </>
            )}
            <Line title="Descends from" nodes={page.descendsFrom} />
            <Line title="Succeeds" nodes={page.succeeds} />
            <Line title="Succeeded by" nodes={page.succeededBy} />
            <Line title="Descendants" nodes={page.descendants} />
            <Line title="Pattern of" nodes={page.patternOf} />
            <Line title="Copied as pattern by" nodes={page.patterns} />
          </dl>
          {descent !== null && <Descent descent={descent} />}
          <h3 className="head">How are these two related?</h3>
          <label className="related-ask">
            {page.family.name} and{' '}
            <select
              className="field"
              value={beside ?? ''}
              onChange={(event) =>
                goTo({
                  screen: 'atlas',
                  page: { kind: 'family', id, beside: event.target.value === '' ? null : asId<FamilyId>(event.target.value) },
                })
              }
            >
              <option value="">pick a family</option>
              {words.vocabulary.families
                .filter((family) => family.id !== id)
                .map((family) => (
                  <option key={family.id} value={family.id}>
                    {family.name}
                  </option>
                ))}
            </select>
          </label>
          <ApartLink subjects={[{ kind: 'family', id }, ...(beside === null ? [] : [{ kind: 'family' as const, id: beside }])]}>
            {beside === null ? 'Tell it apart from others' : 'Tell these two apart'}
          </ApartLink>
          <p className="apart-link no-print">
            <a href={hrefOf({ screen: 'key', families: [id] })}>A key to its models</a>
          </p>
          {beside !== null && <Related a={id} b={beside} />}
          <SourceLine source={page.source} />
        </>
      )}
    </PageFrame>
  );
}

function Line({ title, nodes }: { readonly title: string; readonly nodes: Parameters<typeof NodeLinks>[0]['nodes'] }) {
  if (nodes.length === 0) return null;
  return (
    <>
      <dt>
        <TermText text={title} />
      </dt>
      <dd>
        <NodeLinks nodes={nodes} />
      </dd>
    </>
  );
}

/** The whole line, not only the next of kin. */
function Descent({ descent }: { readonly descent: DescentAnswer }) {
  const far = [
    { title: 'Line it comes from', steps: descent.ancestors },
    { title: 'Line that came of it', steps: descent.descendants },
  ].filter((line) => line.steps.length > 1);
  return far.map((line) => (
    <div key={line.title}>
      <h3 className="head">{line.title}</h3>
      <ol className="steps">
        {line.steps.map((step) => (
          <li key={step.family.id}>
            <NodeLink node={step.family} />
            <span className="soft">
              {' '}
              {line.steps === descent.ancestors ? (
                <>
                  ({step.via.name} {step.how} it)
                </>
              ) : (
                <>
                  ({step.how} {step.via.name})
                </>
              )}
            </span>
          </li>
        ))}
      </ol>
    </div>
  ));
}

function Related({ a, b }: { readonly a: FamilyId; readonly b: FamilyId }) {
  const asked = useAsk('atlas.related', { a, b });
  const answer = latest(asked);
  if (asked.state === 'trouble') return <TroubleNote lead="The line could not be followed." trouble={asked.trouble} />;
  if (answer === null) return <p className="soft">Following the lines…</p>;
  if (answer.steps === null) return <p role="status">The atlas knows no line that joins these two.</p>;
  return (
    <ol className="steps" aria-label="Shortest reason they are related">
      {answer.steps.map((step) => (
        <li key={`${step.from.id}-${step.to.id}`}>
          <NodeLink node={step.from} /> <span className="how">{step.how}</span> <NodeLink node={step.to} />
        </li>
      ))}
    </ol>
  );
}
