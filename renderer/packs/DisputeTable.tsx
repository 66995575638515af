import type { WordDispute } from '../../db/answers.ts';
import { CellSays, useCellEntry, useCellWhat } from '../edit/AlteredCell.tsx';

/** Whose word is to stand, by the cell of each dispute. */
export type Decided = Readonly<Record<string, 'shop' | 'pack'>>;

interface Props {
  readonly disputes: readonly WordDispute[];
  readonly decided: Decided;
  onDecide(decided: Decided): void;
}

/** Where the shop said otherwise than the edition it has, and the one that is brought says a third thing: decided one by one, or all alike. */
export function DisputeTable({ disputes, decided, onDecide }: Props) {
  const all = (holds: 'shop' | 'pack'): void => onDecide(Object.fromEntries(disputes.map(({ cell }) => [cell, holds])));
  return (
    <section className="disputes" aria-label="Where your shop said otherwise">
      <h4 className="head">Where your shop said otherwise</h4>
      <div className="bring-ways">
        <button type="button" className="button" onClick={() => all('shop')}>
          Keep all of ours
        </button>
        <button type="button" className="button" onClick={() => all('pack')}>
          Take all of the pack’s
        </button>
      </div>
      <table className="page-table">
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">The edition we have says</th>
            <th scope="col">We say</th>
            <th scope="col">The new edition says</th>
            <th scope="col">What shall stand</th>
          </tr>
        </thead>
        <tbody>
          {disputes.map((one) => (
            <Row key={one.cell} dispute={one} holds={decided[one.cell]} onDecide={(holds) => onDecide({ ...decided, [one.cell]: holds })} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface RowProps {
  readonly dispute: WordDispute;
  readonly holds: Decided[string] | undefined;
  onDecide(holds: Decided[string]): void;
}

function Row({ dispute, holds, onDecide }: RowProps) {
  const of = `${useCellEntry(dispute)}: ${useCellWhat(dispute)}`;
  return (
    <tr>
      <th scope="row">{of}</th>
      {[dispute.before, dispute.own, dispute.after].map((said, column) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: three columns, always the same.
        <td key={column}>
          <CellSays cell={dispute} said={said} />
        </td>
      ))}
      <td>
        <select
          className="field"
          aria-label={`What shall stand of ${of}`}
          value={holds ?? ''}
          onChange={({ target: { value } }) => (value === 'shop' || value === 'pack') && onDecide(value)}
        >
          <option value="" disabled>
            not decided
          </option>
          <option value="shop">what we say</option>
          <option value="pack">what the pack says</option>
        </select>
      </td>
    </tr>
  );
}
