import './both-sides.css';
import { useId } from 'react';
import type { Changed, Side } from '../../reasoner/plain/fields-merged.ts';

/** One thing two windows say otherwise. */
export interface SideRow {
  readonly key: string;
  readonly what: string;
  /** Null: nothing is said of it on that side. */
  readonly mine: string | null;
  readonly theirs: string | null;
  readonly changed: Changed;
}

export interface SidesProps {
  readonly rows: readonly SideRow[];
  /** What the two columns are headed by: `Here`, `Saved by Osk`. */
  readonly heads: readonly [string, string];
  readonly decided: ReadonlyMap<string, Side>;
  onDecide(key: string, side: Side): void;
}

/** What is here and what is there, row by row; where both changed a thing, which of the two is taken is chosen. */
export function BothSides({ rows, heads: [here, there], decided, onDecide }: SidesProps) {
  const name = useId();
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it takes the focus first, to be read before anything is decided; a long list is scrolled by keyboard.
    <section className="both-sides" aria-label="What differs" tabIndex={0}>
      <table>
        <thead>
          <tr>
            <th scope="col">What differs</th>
            <th scope="col">{here}</th>
            <th scope="col">{there}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.key} data-changed={row.changed}>
              <th scope="row">{row.what}</th>
              {(['mine', 'theirs'] as const).map((side) => (
                <td key={side} data-taken={takenOf(row, decided) === side}>
                  {row.changed === 'both' ? (
                    <label>
                      <input
                        type="radio"
                        name={`${name} ${row.key}`}
                        checked={decided.get(row.key) === side}
                        onChange={() => onDecide(row.key, side)}
                        aria-label={`${row.what}: ${side === 'mine' ? here : there}, ${said(row[side])}`}
                      />{' '}
                      <Said text={row[side]} />
                    </label>
                  ) : (
                    <>
                      <Said text={row[side]} />
                      {takenOf(row, decided) === side && <span className="small soft"> (changed)</span>}
                    </>
                  )}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const takenOf = (row: SideRow, decided: ReadonlyMap<string, Side>): Side | undefined =>
  row.changed === 'both' ? decided.get(row.key) : row.changed === 'here' ? 'mine' : 'theirs';

const said = (text: string | null): string => text ?? 'nothing';

function Said({ text }: { readonly text: string | null }) {
  return text === null ? <span className="faint">nothing</span> : <span className="said-text">{text}</span>;
}
