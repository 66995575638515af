import { Fragment, useState } from 'react';
import type { Fit, FitPoint, JointPlan, Plan } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { FitMark } from '../atlas/FitMark.tsx';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { saySpan, unitSign } from '../values/lengths.ts';
import { sayMany } from '../values/sayMany.ts';
import { ColumnHeads } from './ColumnHeads.tsx';
import { pointNames, sayCompared, sayMeeting, sayShare } from './sayBuild.ts';

/** The comparison a joint's verdict hangs on: the first of the worst there are. */
const decidingPoint = ({ findings, verdict }: Fit): FitPoint | null =>
  findings.flatMap(({ points }) => points).find((point) => point.verdict === verdict) ?? null;

/** Joint by joint: the verdict, the numbers of what decides it, what is asked, and the share of pairs within it. A row opens to the whole. */
export function JointTable({ plan }: { readonly plan: Plan }) {
  const words = useWords();
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set());
  const toggle = (joint: string) => {
    const next = new Set(open);
    if (!next.delete(joint)) next.add(joint);
    setOpen(next);
  };
  return (
    <section className="block" id="plan-joints" tabIndex={-1} aria-labelledby="plan-joints-title">
      <div className="block-head">
        <h2 id="plan-joints-title" className="head">
          Joints
        </h2>
        {plan.joints.length > 0 && (
          <button
            type="button"
            className="button plain no-print"
            onClick={() => setOpen(open.size === plan.joints.length ? new Set() : new Set(plan.joints.map(({ joint }) => joint)))}
          >
            {open.size === plan.joints.length ? 'Fold all' : 'Unfold all'}
          </button>
        )}
      </div>
      {plan.joints.length > 0 && (
        <table className="plan-table joint-table">
          <ColumnHeads
            of={[
              'Joint',
              'Verdict',
              'Decided by',
              { figures: `Worst case, ${unitSign(words.unit)}` },
              { figures: `Asked, ${unitSign(words.unit)}` },
              { figures: 'Within' },
            ]}
          />
          <tbody>
            {plan.joints.map((joint) => {
              const shown = open.has(joint.joint);
              return (
                <Fragment key={joint.joint}>
                  <JointRow plan={joint} shown={shown} onToggle={() => toggle(joint.joint)} />
                  {shown && <JointWhole plan={joint} />}
                </Fragment>
              );
            })}
          </tbody>
        </table>
      )}
      {plan.waiting.length > 0 && (
        <p className="small soft">
          {sayMany(plan.waiting.length, 'joint waits', 'joints wait')} for a part:{' '}
          {plan.waiting.map((id) => words.jointName(id)).join(', ')}.
        </p>
      )}
    </section>
  );
}

function JointRow({ plan, shown, onToggle }: { readonly plan: JointPlan; readonly shown: boolean; onToggle(): void }) {
  const words = useWords();
  const before = decidingPoint(plan.fit);
  const after = plan.works.length > 0 ? sameAfter(plan, before) : null;
  return (
    <tr className={shown ? 'joint-row is-open' : 'joint-row'}>
      <th scope="row">
        <button type="button" className="row-fold" aria-expanded={shown} onClick={onToggle}>
          <span aria-hidden="true">{shown ? '▾' : '▸'}</span> {words.jointName(plan.joint)}
        </button>
      </th>
      <td>
        <FitMark verdict={plan.verdict} />
      </td>
      <td className="decided">{before !== null && <PointName point={before} short={!shown} />}</td>
      <td className="number">
        {before?.found ? (
          saySpan(before.found, words.unit)
        ) : before === null ? (
          ''
        ) : (
          <span className="soft small">{sayMeeting(before)}</span>
        )}
        {after?.found && <span className="after-work">then {saySpan(after.found, words.unit)}</span>}
      </td>
      <td className="number">{before?.asked ? saySpan(before.asked, words.unit) : ''}</td>
      <td className="number">
        {before?.share === undefined ? '' : sayShare(before.share)}
        {after?.share !== undefined && <span className="after-work">{sayShare(after.share)}</span>}
      </td>
    </tr>
  );
}

/** The same comparison with the work done. */
const sameAfter = ({ after }: JointPlan, point: FitPoint | null): FitPoint | null =>
  point === null
    ? null
    : (after.findings
        .flatMap(({ points }) => points)
        .find((each) => each.what === point.what && each.features.join() === point.features.join()) ?? null);

/** What is compared and what of it is missing; on one line the missing dimensions stand in place of the compared ones. */
function PointName({ point, short = false }: { readonly point: FitPoint; readonly short?: boolean }) {
  const words = useWords();
  const missing = point.missing.map((feature) => `${slotOf(words, feature)}${words.featureName(feature)}`).join(', ');
  const features = sayCompared(words, point.features);
  return (
    <>
      {capital(pointNames[point.what])}
      {(missing === '' || !short) && (
        <span className="soft">
          : <TermsText text={features} />
        </span>
      )}
      {missing !== '' && (
        <span className={short ? 'missing on-the-line' : 'missing'}>
          not known: <TermsText text={missing} />
        </span>
      )}
    </>
  );
}

const slotOf = (words: ReturnType<typeof useWords>, id: FitPoint['features'][number]): string => {
  const slot = words.feature(id)?.slot;
  return slot === undefined ? '' : `${words.slotName(slot)}’s `;
};

/** The comparisons that do not decide the joint, then the sentences that say the same and what is to be done. */
function JointWhole({ plan }: { readonly plan: JointPlan }) {
  const words = useWords();
  const deciding = decidingPoint(plan.fit);
  const others = plan.fit.findings.flatMap(({ points }) => points).filter((point) => point !== deciding);
  // What is said with a work stands with the work.
  const cautions = plan.works.length > 0 ? [] : plan.cautions;
  return (
    <>
      {others.map((point) => {
        const after = plan.works.length > 0 ? sameAfter(plan, point) : null;
        return (
          <tr key={`${point.what} ${point.features.join()}`} className="point-row">
            <td />
            <td>
              <FitMark verdict={point.verdict} />
            </td>
            <td className="decided">
              <PointName point={point} />
            </td>
            <td className="number">
              {point.found ? saySpan(point.found, words.unit) : <span className="soft">{sayMeeting(point)}</span>}
              {after?.found && point.found && saySpan(after.found, words.unit) !== saySpan(point.found, words.unit) && (
                <span className="after-work">then {saySpan(after.found, words.unit)}</span>
              )}
            </td>
            <td className="number">{point.asked ? saySpan(point.asked, words.unit) : ''}</td>
            <td className="number">{point.share === undefined ? '' : sayShare(point.share)}</td>
          </tr>
        );
      })}
      <tr className="whole-row">
        <td colSpan={6}>
          <ul className="plain-list small">
            {plan.sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
            {cautions.map((caution) => (
              <li key={caution} className="caution-line">
                {caution}
              </li>
            ))}
          </ul>
        </td>
      </tr>
    </>
  );
}
