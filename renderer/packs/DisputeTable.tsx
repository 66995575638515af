import type { Said, WordDispute } from '../../db/answers.ts';

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
            <th scope="col">Of</th>
            <th scope="col">The edition here says</th>
            <th scope="col">We say</th>
            <th scope="col">This edition says</th>
            <th scope="col">What shall stand</th>
          </tr>
        </thead>
        <tbody>
          {disputes.map((one) => {
            const of = [one.id, one.field, one.line].filter((step) => step !== null).join(', ');
            return (
              <tr key={one.cell}>
                <th scope="row">{of}</th>
                <td>{saySaid(one.before)}</td>
                <td>{saySaid(one.own)}</td>
                <td>{saySaid(one.after)}</td>
                <td>
                  <select
                    className="field"
                    aria-label={`What shall stand of ${of}`}
                    value={decided[one.cell] ?? ''}
                    onChange={(event) => {
                      const holds = event.target.value;
                      if (holds === 'shop' || holds === 'pack') onDecide({ ...decided, [one.cell]: holds });
                    }}
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
          })}
        </tbody>
      </table>
    </section>
  );
}

/** What is said of one thing, as it stands in the files of a pack: its parts by name. */
const saySaid = (said: Said | null): string => {
  if (said === null) return 'nothing';
  if (typeof said !== 'object') return String(said);
  if (Array.isArray(said)) return said.length === 0 ? 'none' : said.map((one) => saySaid(one as Said)).join('; ');
  return Object.entries(said)
    .map(([name, value]) => `${name} ${saySaid(value as Said | null)}`)
    .join(', ');
};
