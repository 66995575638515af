import type { MachiningSheet } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { FeatureDrawing } from '../drawings/FeatureDrawing.tsx';
import { unitSign } from '../values/lengths.ts';
import { ColumnHeads } from './ColumnHeads.tsx';
import { figuresOf } from './sayBuild.ts';

type Size = MachiningSheet['works'][number]['sizes'][number];

/** What goes to the machine with one part: its drawing, each size to be made, and boxes for what was measured and by whom. */
export function MachiningTable({ machining: { slotName, text, facts, works } }: { readonly machining: MachiningSheet }) {
  const words = useWords();
  const drawn = works.flatMap(({ sizes }) => sizes)[0];
  return (
    <section className="machining">
      <h3 className="head">
        Machining: {slotName}, {text}
      </h3>
      <div className="machining-body">
        {drawn !== undefined && <FeatureDrawing feature={drawn.feature} facts={facts} />}
        <table className="plan-table sheet-table">
          <ColumnHeads of={['Operation', 'Dimension', { figures: `Finish to, ${unitSign(words.unit)}` }, 'Measured', 'By']} />
          <tbody>
            {works.map(({ name, sentence, sizes }) =>
              sizes.length === 0 ? (
                <tr key={sentence}>
                  <th scope="row">{capital(name)}</th>
                  <td colSpan={2}>{sentence}</td>
                  <td className="box" />
                  <td className="box" />
                </tr>
              ) : (
                sizes.map((size) => (
                  <tr key={`${sentence} ${size.feature}`}>
                    <th scope="row">{capital(name)}</th>
                    <td>{capital(size.name)}</td>
                    <td className="number">
                      <DrawnSize size={size} />
                    </td>
                    <td className="box" />
                    <td className="box" />
                  </tr>
                ))
              ),
            )}
          </tbody>
        </table>
      </div>
      {[...new Set(works.flatMap(({ cautions }) => cautions))].map((caution) => (
        <p key={caution} className="small caution-line">
          {caution}
        </p>
      ))}
    </section>
  );
}

/** A size as a drawing sets it: nominal, with the upper deviation over the lower; one figure with ± where they are alike. */
function DrawnSize({ size }: { readonly size: Size }) {
  const words = useWords();
  const { nominal, upper, lower, alike } = figuresOf(size, words.unit);
  return (
    <span className="drawn-size">
      {size.diameter && 'Ø'}
      {nominal}
      {alike ? (
        ` ±${upper}`
      ) : (
        <span className="deviations">
          <span>{upper}</span>
          <span className="unseen"> / </span>
          <span>{lower}</span>
        </span>
      )}
    </span>
  );
}
