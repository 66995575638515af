import type { Plan } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { FitMark } from '../atlas/FitMark.tsx';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { saySpan, unitSign } from '../values/lengths.ts';
import { ColumnHeads } from './ColumnHeads.tsx';
import { sayShare } from './sayBuild.ts';

/** Stacks of lengths over several parts: what is left over at worst and by statistics, against what is asked. */
export function ChainTable({ plan }: { readonly plan: Plan }) {
  const words = useWords();
  return (
    <section className="block" id="plan-lengths" tabIndex={-1} aria-labelledby="plan-lengths-title">
      <h2 id="plan-lengths-title" className="head">
        Stacks of lengths
      </h2>
      {plan.chains.length === 0 ? (
        <p className="soft">No stack has all its lengths chosen.</p>
      ) : (
        <table className="plan-table">
          <ColumnHeads
            of={[
              'Stack',
              'Verdict',
              { figures: `Worst case, ${unitSign(words.unit)}` },
              { figures: `Nearly all, ${unitSign(words.unit)}` },
              { figures: `Asked, ${unitSign(words.unit)}` },
              { figures: 'Within' },
            ]}
          />
          <tbody>
            {plan.chains.map(({ chain, name, after, sentence }) => (
              <tr key={chain}>
                <th scope="row">
                  <TermsText text={capital(name)} />
                  <span className="small soft chain-sentence">
                    {after.missing.length > 0
                      ? `Not known: ${after.missing.map((feature) => words.featureName(feature)).join(', ')}.`
                      : sentence}
                  </span>
                </th>
                <td>
                  <FitMark verdict={after.verdict} />
                </td>
                <td className="number">{after.numbers === null ? '' : saySpan(after.numbers.worst, words.unit)}</td>
                <td className="number">{after.numbers === null ? '' : saySpan(after.numbers.inflated, words.unit)}</td>
                <td className="number">{saySpan(after.asked, words.unit)}</td>
                <td className="number">{after.numbers === null ? '' : sayShare(after.numbers.share)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}
