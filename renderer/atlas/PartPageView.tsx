import { useMemo, useState } from 'react';
import type { FitsAnswer, PartPage } from '../../db/answers.ts';
import type { Fact, FeatureId, FitVerdict, PartId, SlotId } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { DrawingKey } from '../drawings/DrawingKey.tsx';
import { PartDrawing } from '../drawings/PartDrawing.tsx';
import type { Facts as KnownFacts } from '../drawings/reading.ts';
import { TermText } from '../glossary/TermLink.tsx';
import { useGlossary } from '../glossary/useGlossary.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { MeasuredHere } from '../samples/MeasuredHere.tsx';
import { saySpan, unitSign } from '../values/lengths.ts';
import { roleWords } from '../values/roleWords.ts';
import { sayFact } from '../values/sayFact.ts';
import { FitMark } from './FitMark.tsx';
import { InTheShop } from './InTheShop.tsx';
import { ApartLink, EditLink, NodeLink } from './NodeLink.tsx';
import { PageFrame } from './PageFrame.tsx';
import { Papers } from './Papers.tsx';
import { SourceLine } from './SourceLine.tsx';

/** A part: what it was sold as, what took its place, what is known of it, where it sits and what it fits. */
export function PartPageView({ id }: { readonly id: PartId }) {
  const words = useWords();
  return (
    <PageFrame asked={useAsk('atlas.part', { id })}>
      {(page) => (
        <>
          <p className="head">
            <TermText text={words.slotName(page.slot)} /> by {page.maker === null ? 'no named maker' : words.makerName(page.maker)}
            <EditLink list="parts" id={id} />
          </p>
          <h2 className="page-title">{page.part.name}</h2>
          <dl className="page-facts">
            <dt>Numbers</dt>
            <dd className="numbers">{page.numbers.length === 0 ? <span className="soft">none</span> : page.numbers.join(', ')}</dd>
            {page.supersession.length > 1 && (
              <>
                <dt>
                  <TermText text="Supersession" />
                </dt>
                <dd>
                  <Supersession page={page} />
                </dd>
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
            {page.patterns.length > 0 && (
              <>
                <dt>Copied as pattern by</dt>
                <dd>
                  {page.patterns.map((node) => (
                    <div key={node.id}>
                      <NodeLink node={node} />
                    </div>
                  ))}
                </dd>
              </>
            )}
          </dl>
          <ApartLink
            subjects={[
              { kind: 'part', id },
              ...(page.patternOf?.kind === 'part' ? [{ kind: 'part' as const, id: page.patternOf.id }] : []),
            ]}
          >
            {page.patternOf === null ? 'Tell it apart from others' : 'Tell it apart from what it is a pattern of'}
          </ApartLink>
          <Drawn page={page} />
          <Facts page={page} />
          <MeasuredHere page={page} />
          <InTheShop part={{ id, name: page.part.name }} />
          <SitsIn page={page} />
          <Fits id={id} slot={page.slot} />
          <Papers about={{ kind: 'part', id }} heading="Papers of this part" />
          <SourceLine source={page.source} />
        </>
      )}
    </PageFrame>
  );
}

function Supersession({ page }: { readonly page: PartPage }) {
  return (
    <ol className="chain" aria-label="Oldest first">
      {page.supersession.map((node) => (
        <li key={node.id}>{node.id === page.part.id ? <b aria-current="true">{node.name}</b> : <NodeLink node={node} />}</li>
      ))}
    </ol>
  );
}

function Drawn({ page }: { readonly page: PartPage }) {
  const facts = useMemo(() => factsOf(page.facts), [page.facts]);
  return (
    <>
      <h3 className="head">Drawn from what is known</h3>
      <PartDrawing slot={page.slot} facts={facts} />
      <DrawingKey />
    </>
  );
}

function Facts({ page }: { readonly page: PartPage }) {
  const words = useWords();
  const known = page.facts.filter((one) => one.fact.kind !== 'not known').length;
  const linked = useGlossary().firstUses(page.facts.map((one) => words.featureName(one.feature)));
  return (
    <>
      <h3 className="head">
        What is known of it{' '}
        <span className="head-note">
          {known} of {words.featuresOf(page.slot).length} features
        </span>
      </h3>
      <table className="page-table">
        <thead>
          <tr>
            <th scope="col">Feature</th>
            <th scope="col">Value</th>
            <th scope="col">Seen at</th>
            <th scope="col">Source</th>
          </tr>
        </thead>
        <tbody>
          {page.facts.map((one, index) => {
            const feature = words.feature(one.feature);
            return (
              <tr key={one.feature}>
                <th scope="row">
                  {linked.has(index) ? <TermText text={words.featureName(one.feature)} /> : words.featureName(one.feature)}
                </th>
                <td className={one.fact.kind === 'not known' ? 'soft' : undefined}>{sayFact(feature, one.fact, words.unit)}</td>
                <td className="soft small">{feature === undefined ? '' : words.stageName(feature.stage)}</td>
                <td className="soft small">
                  <Whose one={one} />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </>
  );
}

/** Where a fact comes from. Where the shop says otherwise than the pack, that it is the shop’s word, and what the pack says. */
function Whose({ one }: { readonly one: PartPage['facts'][number] }) {
  const words = useWords();
  if (one.packSays === undefined) return words.sourceTitle(one.source);
  const { fact, source } = one.packSays ?? { fact: null, source: null };
  return (
    <>
      <b>the shop’s word</b>
      {source !== one.source && `, by ${words.sourceTitle(one.source)}`};{' '}
      {fact === null
        ? 'the pack says nothing of it'
        : `the pack says ${sayFact(words.feature(one.feature), fact, words.unit)}${source === null ? '' : `, by ${words.sourceTitle(source)}`}`}
    </>
  );
}

function SitsIn({ page }: { readonly page: PartPage }) {
  return (
    <>
      <h3 className="head">Sits in</h3>
      {page.sitsIn.length === 0 ? (
        <p className="soft">No model of the atlas lists it.</p>
      ) : (
        <ul className="columns">
          {page.sitsIn.map((one) => (
            <li key={one.model.id}>
              <NodeLink node={one.model} /> <span className="soft small">{roleWords[one.role]}</span>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

const order: readonly FitVerdict[] = ['drops in', 'after work', 'not known', 'will not fit'];
const firstShown = 12;

/** What else it fits, joint by joint: what drops in first, what will not fit last. */
function Fits({ id, slot }: { readonly id: PartId; readonly slot: SlotId }) {
  const asked = useAsk('atlas.fits', { part: id });
  const answer = latest(asked);
  return (
    <>
      <h3 className="head">What it fits</h3>
      {asked.state === 'trouble' && <TroubleNote lead="The fits could not be worked out." trouble={asked.trouble} />}
      {answer === null && asked.state === 'waiting' && <p className="soft">Trying its partners…</p>}
      {answer !== null && <FitsByJoint answer={answer} slot={slot} />}
    </>
  );
}

function FitsByJoint({ answer, slot }: { readonly answer: FitsAnswer; readonly slot: SlotId }) {
  const words = useWords();
  const joints = [...new Set(answer.partners.map((partner) => partner.joint))];
  if (joints.length === 0) return <p className="soft">The atlas lists nothing the {words.slotName(slot)} meets at a joint.</p>;
  return joints.map((joint) => {
    const partners = answer.partners
      .filter((partner) => partner.joint === joint)
      .sort((a, b) => order.indexOf(a.fit.verdict) - order.indexOf(b.fit.verdict) || a.part.name.localeCompare(b.part.name));
    const other = partners[0]?.slot;
    return (
      <JointFits
        key={joint}
        title={`${words.jointName(joint)}${other === undefined ? '' : `: ${words.slotName(other)}`}`}
        partners={partners}
      />
    );
  });
}

function JointFits({ title, partners }: { readonly title: string; readonly partners: FitsAnswer['partners'] }) {
  const [limit, setLimit] = useState(firstShown);
  return (
    <details className="joint-fits">
      <summary>
        {title}
        <span className="fit-counts">
          {order.map((verdict) => {
            const count = partners.filter((partner) => partner.fit.verdict === verdict).length;
            return count === 0 ? null : (
              <span key={verdict}>
                {count} <FitMark verdict={verdict} />
              </span>
            );
          })}
        </span>
      </summary>
      <ul>
        {partners.slice(0, limit).map((partner) => (
          <li key={partner.part.id}>
            <NodeLink node={partner.part} /> <FitMark verdict={partner.fit.verdict} />
            <FitNumbers partner={partner} />
          </li>
        ))}
      </ul>
      {partners.length > limit && (
        <button type="button" className="button plain" onClick={() => setLimit(limit + 60)}>
          {partners.length - limit} more
        </button>
      )}
    </details>
  );
}

/** The rule that decides, in numbers: what was found against what is asked, or what is missing. */
function FitNumbers({ partner }: { readonly partner: FitsAnswer['partners'][number] }) {
  const words = useWords();
  const { fit } = partner;
  const deciding = fit.findings.find((finding) => finding.verdict === fit.verdict && finding.verdict !== 'drops in');
  if (deciding === undefined) return null;
  if (deciding.missing.length > 0) {
    return <span className="soft small"> missing: {deciding.missing.map((feature) => words.featureName(feature)).join(', ')}</span>;
  }
  const say = (range: { readonly least: number; readonly greatest: number }) => `${saySpan(range, words.unit)} ${unitSign(words.unit)}`;
  return (
    <span className="soft small">
      {' '}
      {deciding.rule.kind}
      {deciding.found !== undefined && deciding.asked !== undefined
        ? `: ${say(deciding.found)}, asked ${say(deciding.asked)}`
        : `: ${deciding.decidedBy.map((feature) => words.featureName(feature)).join(', ')}`}
    </span>
  );
}

/** A page's list of facts by feature. */
const factsOf = (facts: readonly { readonly feature: FeatureId; readonly fact: Fact }[]): KnownFacts =>
  Object.fromEntries(facts.map(({ feature, fact }) => [feature, fact]));
