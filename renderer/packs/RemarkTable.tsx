import type { PackRemark } from '../../electron/bridge/pack-calls.ts';
import { sayMany } from '../values/sayMany.ts';

interface Props {
  readonly label: string;
  /** What the last column says. */
  readonly said: string;
  readonly remarks: readonly PackRemark[];
}

/** Places in a pack, each with what was found there: file, row and column as an editor or a spreadsheet counts them. */
export function RemarkTable({ label, said, remarks }: Props) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a list that scrolls must be reached by the keys that scroll it.
    <section className="remarks" tabIndex={0} aria-label={label}>
      <table className="page-table">
        <thead>
          <tr>
            <th scope="col">File</th>
            <th scope="col">Row</th>
            <th scope="col">Column</th>
            <th scope="col">Found</th>
            <th scope="col">{said}</th>
          </tr>
        </thead>
        <tbody>
          {remarks.map((one, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: what was found is a list that never changes.
            <tr key={index}>
              <th scope="row">{one.file}</th>
              <td className="numbers">{one.row ?? ''}</td>
              <td>{one.column ?? ''}</td>
              <td>
                {one.found}
                {one.many > 1 && <span className="soft"> (in {one.many} places)</span>}
              </td>
              <td>{one.said}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** What is only suspicious, folded away. */
export function Remarks({ remarks }: Pick<Props, 'remarks'>) {
  if (remarks.length === 0) return null;
  return (
    <details>
      <summary>
        {sayMany(remarks.length, 'remark')}, {remarks.length === 1 ? 'which does not keep' : 'none of which keeps'} it out
      </summary>
      <RemarkTable label="Remarks" said="What it means" remarks={remarks} />
    </details>
  );
}
