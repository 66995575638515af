import type { Plan } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { sayLength, saySpan, unitSign } from '../values/lengths.ts';
import { ColumnHeads } from './ColumnHeads.tsx';

/** Clearances cold and warm side by side. The warm figure is an estimate; no verdict rests on it. */
export function WarmTable({ plan }: { readonly plan: Plan }) {
  const words = useWords();
  const points = plan.joints.flatMap(({ joint, warm }) => warm.map((point) => ({ joint, ...point })));
  const assumptions = [...new Set(points.flatMap(({ clearance }) => clearance?.assumptions ?? []))];
  return (
    <section className="block" id="plan-warm" tabIndex={-1} aria-labelledby="plan-warm-title">
      <h2 id="plan-warm-title" className="head">
        Clearances cold and warm
      </h2>
      {points.length === 0 ? (
        <p className="soft">No joint of this build has clearances the atlas knows to change in service.</p>
      ) : (
        <>
          <table className="plan-table">
            <ColumnHeads
              of={[
                'Between',
                { figures: `Cold, ${unitSign(words.unit)}` },
                { figures: `Warm, ${unitSign(words.unit)}` },
                { figures: 'By expansion' },
                { figures: 'Wheel’s growth' },
              ]}
            />
            <tbody>
              {points.map(({ joint, features, clearance, missing, sentence }) => (
                <tr key={`${joint} ${features.join()}`} title={sentence}>
                  <th scope="row">
                    <TermsText text={capital(features.map((feature) => words.featureName(feature)).join(' and '))} />
                    <span className="small soft"> {words.jointName(joint)}</span>
                  </th>
                  {clearance === null ? (
                    <td colSpan={4} className="small">
                      {missing.length === 0 ? sentence : `Not known: ${missing.map((feature) => words.featureName(feature)).join(', ')}.`}
                    </td>
                  ) : (
                    <>
                      <td className="number">{saySpan(clearance.cold, words.unit)}</td>
                      <td className="number">{saySpan(clearance.warm, words.unit)}</td>
                      <td className="number">{sayLength(clearance.thermal, words.unit)}</td>
                      <td className="number">
                        {clearance.growth === null ? <span className="soft">left out</span> : sayLength(clearance.growth, words.unit)}
                      </td>
                    </>
                  )}
                </tr>
              ))}
            </tbody>
          </table>
          <p className="small soft">Warm figures are estimates beside the cold ones; no verdict rests on them. {assumptions.join(' ')}</p>
        </>
      )}
    </section>
  );
}
