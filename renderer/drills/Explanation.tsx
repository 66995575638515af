import type { ReactNode } from 'react';
import type { Drill, Judgement } from '../../reasoner/index.ts';
import { FeatureDrawing } from '../drawings/FeatureDrawing.tsx';
import { TermsText } from '../glossary/TermLink.tsx';
import { apartHref, treeHref } from './confusionLinks.ts';
import { LineOfDescent } from './LineOfDescent.tsx';
import { sayDue } from './sayDay.ts';

/** Right or not, why, and the drawing that shows it. */
export function Explanation({
  drill,
  judgement,
  due,
  children,
}: {
  readonly drill: Drill;
  readonly judgement: Judgement;
  readonly due: string;
  readonly children: ReactNode;
}) {
  const { right, sentences, accepted, confused, showings, line } = judgement;
  const [lead, ...reasons] = sentences;
  const apart = confused === null ? null : apartHref(confused.asked, confused.answered);
  const tree = confused === null ? null : treeHref(confused.asked, confused.answered);
  const text = (id: string): string => drill.choices.find((choice) => choice.id === id)?.text ?? id;
  return (
    <div className="drill-why">
      <section className={`drill-verdict ${right ? 'is-right' : 'is-wrong'}`} aria-label="Explanation" aria-live="polite">
        <h3>{right ? 'Right.' : 'Not this time.'}</h3>
        {!right && accepted[0] !== undefined && (
          <p>
            {drill.respond.kind === 'order' ? 'One right order: ' : 'Right: '}
            <b>{accepted.map((each) => each.map(text).join(drill.respond.kind === 'order' ? ' → ' : ' and ')).join('; or ')}</b>
          </p>
        )}
        <p>
          <TermsText text={lead ?? ''} />
        </p>
        {reasons.length > 0 && (
          <ul className="drill-reasons">
            {reasons.map((reason) => (
              <li key={reason}>
                <TermsText text={reason} />
              </li>
            ))}
          </ul>
        )}
        {showings.map(({ feature, sides }, i) => (
          // The same feature may be shown of two parts.
          // biome-ignore lint/suspicious/noArrayIndexKey: they stand in the order of their reasons
          <div className="drill-showing" key={i}>
            {sides.map(({ label, facts }) => (
              <div key={label}>
                <p className="small soft">{label}</p>
                <FeatureDrawing feature={feature} facts={facts} />
              </div>
            ))}
          </div>
        ))}
        {line !== undefined && <LineOfDescent line={line} />}
        <p className="drill-on">
          {children}
          {apart !== null && <a href={apart}>Tell the two apart</a>}
          {tree !== null && <a href={tree}>Both in the tree</a>}
          <span className="soft small">Asked again {sayDue(due)}.</span>
        </p>
      </section>
    </div>
  );
}
