import type { Plan, PlannedWork } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { sayLength, saySpan, unitSign } from '../values/lengths.ts';
import { sayMany } from '../values/sayMany.ts';
import { ColumnHeads } from './ColumnHeads.tsx';
import { sayFinished, sayHours, sayOperation } from './sayBuild.ts';

/** What has to be done: operation, part, finished size with tolerance, what comes off, the metal left, hours. */
export function WorkTable({ plan }: { readonly plan: Plan }) {
  const words = useWords();
  return (
    <section className="block" id="plan-work" tabIndex={-1} aria-labelledby="plan-work-title">
      <h2 id="plan-work-title" className="head">
        Work
      </h2>
      {plan.works.length === 0 ? (
        <p className="soft">No operation is asked for.</p>
      ) : (
        <table className="plan-table work-table">
          <ColumnHeads
            of={[
              'Operation and part',
              'Dimension',
              { figures: `Finish to, ${unitSign(words.unit)}` },
              { figures: `Takes, ${unitSign(words.unit)}` },
              { figures: `Metal left, ${unitSign(words.unit)}` },
              { figures: 'Hours' },
            ]}
          />
          <tbody>
            {plan.works.map((work) => (
              <WorkRows key={`${work.operation} ${work.part} ${work.joint}`} work={work} />
            ))}
          </tbody>
        </table>
      )}
      {plan.otherWays.length > 0 && (
        <details className="small">
          <summary>{sayMany(plan.otherWays.length, 'other way')} to get as far</summary>
          <ul className="plain-list">
            {plan.otherWays.map((way) => (
              <li key={way.works.map(({ sentence }) => sentence).join()}>
                {sayHours(way.hours)}: {way.works.map(({ sentence }) => sentence).join(' ')}
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

/** The sentence begins with operation and part: `Open the recess on the Alder III compressor housing: …`. */
const nameOf = ({ sentence, operation }: PlannedWork): string =>
  sentence.includes(': ') ? (sentence.split(': ')[0] ?? '') : sayOperation(operation);

function WorkRows({ work }: { readonly work: PlannedWork }) {
  const words = useWords();
  const sizes = work.sizes.length === 0 ? [null] : work.sizes;
  const metal = (
    <>
      {work.metal.map(({ feature, leaves, mustLeave }) => (
        <span key={feature} className="metal">
          {sayLength(leaves, words.unit)} <span className="soft">of at least {sayLength(mustLeave, words.unit)}</span>
        </span>
      ))}
      {work.missing.length > 0 && (
        <span className="missing">measure the {work.missing.map((feature) => words.featureName(feature)).join(' and ')} first</span>
      )}
    </>
  );
  return (
    <>
      {sizes.map((size, index) => (
        <tr key={size?.feature ?? 'whole'}>
          {index === 0 && (
            <th scope="rowgroup" rowSpan={sizes.length + 1}>
              <b className="work-name">{nameOf(work)}</b>
              <span className="small soft">
                for the <TermsText text={words.jointName(work.joint)} />
              </span>
            </th>
          )}
          <td className="small">{size !== null && <TermsText text={words.featureName(size.feature)} />}</td>
          <td className="number finished">{size === null ? '' : sayFinished(size, words.unit)}</td>
          <td className="number">{size === null ? '' : saySpan(size.removes, words.unit)}</td>
          {index === 0 && (
            <td className="number" rowSpan={sizes.length}>
              {metal}
            </td>
          )}
          {index === 0 && (
            <td className="number" rowSpan={sizes.length}>
              {sayHours(work.hours)}
            </td>
          )}
        </tr>
      ))}
      <tr className="whole-row small">
        <td colSpan={5}>
          {work.sizes.length === 0 && work.sentence}
          {work.cautions.map((caution) => (
            <p key={caution} className="caution-line">
              {caution}
            </p>
          ))}
        </td>
      </tr>
    </>
  );
}
