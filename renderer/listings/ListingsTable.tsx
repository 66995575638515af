import { useState } from 'react';
import type { ListingsRow, Standing } from '../../reasoner/index.ts';
import { reasonsInWords } from '../look/reasonsInWords.ts';
import { StatusMark } from '../look/StatusMark.tsx';
import { titleOf } from '../shelf/useShelf.ts';

const step = 200;

/** The rows, plainest failure first: where each stands, why, and what it may be called. */
export function ListingsTable({ rows, onOpen }: { readonly rows: readonly ListingsRow[]; onOpen(row: ListingsRow): void }) {
  const [limit, setLimit] = useState(step);
  return (
    <>
      <table className="line-table listings-table">
        <thead>
          <tr>
            <th scope="col" className="listings-place">
              #
            </th>
            <th scope="col">Unit</th>
            <th scope="col">Standing</th>
            <th scope="col">Why</th>
            <th scope="col">May be described as</th>
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, limit).map((row, index) => (
            <tr key={`${row.source} ${row.sheet}`}>
              <td className="listings-place">{index + 1}</td>
              <th scope="row">
                {row.sheet === null ? (
                  <span className="listings-title">{row.source}</span>
                ) : (
                  <button type="button" className="link listings-title" onClick={() => onOpen(row)}>
                    {titleOf(row.title)}
                  </button>
                )}
                {row.claimed !== null && <span className="sheet-detail">offered as “{row.claimed}”</span>}
                {row.sheet !== null && <span className="sheet-detail">{row.source}</span>}
              </th>
              <td>
                <Mark standing={row.standing} />
                {row.plainness !== null && (
                  <span className="sheet-detail">
                    {reasonsInWords(row.plainness.reasons)}; the first rests on {row.plainness.restsOn}: {row.plainness.members}{' '}
                    {row.plainness.members === 1 ? 'thing' : 'things to hold against each other'}, {row.plainness.minutes} min
                  </span>
                )}
              </td>
              <td>
                {row.sentences.map((sentence) => (
                  <p key={sentence}>{sentence}</p>
                ))}
              </td>
              <td>{row.may}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length > limit && (
        <button type="button" className="button no-print" onClick={() => setLimit(limit + 5 * step)}>
          {rows.length - limit} more
        </button>
      )}
    </>
  );
}

function Mark({ standing }: { readonly standing: Standing }) {
  switch (standing) {
    case 'ruled out':
    case 'open':
    case 'stands':
      return <StatusMark status={standing} />;
    case 'no name':
    case 'contradiction':
    case 'unreadable':
      return <b className="listings-mark is-out">{standing}</b>;
    case 'nothing claimed':
    case 'planned build':
    case 'not reached':
      return <span className="listings-mark">{standing}</span>;
  }
}
