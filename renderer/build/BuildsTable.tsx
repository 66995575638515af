import { type RefObject, useState } from 'react';
import type { BuildsGroup, BuildsRow, ComparedBuilds } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { sayMany } from '../values/sayMany.ts';
import { BuildsCellText, type LyingOf } from './BuildsCellText.tsx';

export interface ColumnHead {
  readonly key: string;
  readonly title: string;
  /** Where it comes from: `saved`. */
  readonly whence: string;
  readonly put: { readonly name: string; onPut(): void } | null;
  onTakeOut(): void;
}

interface Props {
  readonly heads: readonly ColumnHead[];
  /** Null where there is nothing to compare yet: the heads stand alone. */
  readonly answer: ComparedBuilds | null;
  readonly stockKnown: boolean;
  readonly lying: LyingOf;
  readonly frame: RefObject<HTMLElement | null>;
}

/** Builds side by side: what differs, what is not known to differ, and on demand what is alike, said once. */
export function BuildsTable({ heads, answer, stockKnown, lying, frame }: Props) {
  const [alike, setAlike] = useState(false);
  const [looks, setLooks] = useState(false);
  const rows = answer?.rows ?? [];
  const isLook = ({ group }: BuildsRow): boolean => group === 'sizes and looks';
  const count = (same: BuildsRow['same']): number => rows.filter((row) => row.same === same && !isLook(row)).length;
  const shown = rows.filter((row) => looks || !isLook(row));
  const lookCount = rows.filter((row) => isLook(row) && row.same !== 'holds').length;
  const of = (same: BuildsRow['same']) => shown.filter((row) => row.same === same);
  return (
    <>
      {answer !== null && (
        <p role="status" className="complete-word">
          {count('fails') === 0 ? 'No difference' : sayMany(count('fails'), 'difference')}
          {count('not known') > 0 && `; ${count('not known')} not known`}; {count('holds')} alike.
          <label className="tick no-print">
            <input type="checkbox" checked={alike} onChange={(event) => setAlike(event.target.checked)} /> show what is alike
          </label>
          {lookCount > 0 && (
            <label className="tick no-print">
              <input type="checkbox" checked={looks} onChange={(event) => setLooks(event.target.checked)} /> sizes and looks ({lookCount})
            </label>
          )}
        </p>
      )}
      {!stockKnown && <p className="small caution-line">What is in stock could not be read, so no part is counted in the totals.</p>}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and whoever has no mouse scrolls it by keys. */}
      <section ref={frame} className="compare-frame" aria-label="Builds side by side" tabIndex={0}>
        <table className="plan-table builds-compared" data-columns={heads.length}>
          <thead>
            <tr>
              <th scope="col">
                <span className="unseen">What</span>
              </th>
              {heads.map(({ key, title, whence, put, onTakeOut }) => (
                <th key={key} scope="col">
                  <b className="column-title">{title}</b>
                  <span className="small soft">{whence}</span>
                  <span className="column-acts no-print">
                    {put !== null && (
                      <button type="button" className="button plain" onClick={put.onPut}>
                        {put.name} <span className="unseen">{title}</span>
                      </button>
                    )}
                    <button type="button" className="button plain" onClick={onTakeOut}>
                      Take out <span className="unseen">{title}</span>
                    </button>
                  </span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {grouped(of('fails')).map(({ group, rows: some }) => (
              <GroupRows key={group} head={group} rows={some} columns={heads.length} lying={lying} />
            ))}
            <GroupRows head="not known whether they differ" rows={of('not known')} columns={heads.length} lying={lying} />
            {alike && <GroupRows head="alike in all" rows={of('holds')} columns={heads.length} lying={lying} />}
          </tbody>
        </table>
        {answer !== null && <CautionsOf heads={heads} cautions={answer.cautions} />}
      </section>
    </>
  );
}

/** Rows of one group together, in the order they come up. */
const grouped = (rows: readonly BuildsRow[]): readonly { readonly group: BuildsGroup; readonly rows: readonly BuildsRow[] }[] =>
  [...new Set(rows.map(({ group }) => group))].map((group) => ({ group, rows: rows.filter((row) => row.group === group) }));

/** Each caution once, under those it goes with. */
function CautionsOf({ heads, cautions }: { readonly heads: readonly ColumnHead[]; readonly cautions: ComparedBuilds['cautions'] }) {
  const sets = [...new Set(cautions.map(({ of }) => of.join()))];
  return (
    <div className="compare-cautions">
      {sets.map((set) => {
        const some = cautions.filter(({ of }) => of.join() === set);
        const of = some[0]?.of ?? [];
        return (
          <section key={set}>
            <h2 className="head">
              {of.length === heads.length ? 'Cautions for all of them' : `Also for ${of.map((at) => heads[at]?.title).join('; ')}`}
            </h2>
            <ul className="plain-list small">
              {some.map(({ text }) => (
                <li key={text} className="caution-line">
                  {text}
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </div>
  );
}

interface GroupProps {
  readonly head: string;
  readonly rows: readonly BuildsRow[];
  readonly columns: number;
  readonly lying: LyingOf;
}

function GroupRows({ head, rows, columns, lying }: GroupProps) {
  if (rows.length === 0) return null;
  return (
    <>
      <tr className="group-row">
        <th scope="rowgroup" colSpan={columns + 1} className="head">
          <span>{capital(head)}</span>
        </th>
      </tr>
      {rows.map((row) => (
        <tr key={`${row.group} ${row.what}`} className={row.same === 'holds' ? 'is-same' : undefined}>
          <th scope="row">
            <TermsText text={capital(row.what)} />
          </th>
          {row.same === 'holds' ? (
            <td colSpan={columns}>{row.cells[0] !== undefined && <BuildsCellText row={row} cell={row.cells[0]} lying={lying} />}</td>
          ) : (
            row.cells.map((cell, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a cell is its column.
              <td key={i} className={usual(row, i) ? 'is-usual' : undefined}>
                <BuildsCellText row={row} cell={cell} lying={lying} />
                {row.group === 'the whole' && row.least.includes(i) && row.least.length * 2 <= columns && (
                  <span className="tag">least</span>
                )}
              </td>
            ))
          )}
        </tr>
      ))}
    </>
  );
}

/** Said by more than half of them: it steps back, so that the odd one stands out. */
const usual = ({ alike }: BuildsRow, at: number): boolean =>
  alike[at] !== null && alike.filter((each) => each === alike[at]).length * 2 > alike.length;
