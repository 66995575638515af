import { useEffect, useRef } from 'react';
import type { ListingMatching, ListingsMatched, ListingUse } from '../../electron/bridge/listings-calls.ts';
import { columnName } from '../../reasoner/plain/column-name.ts';
import { sayMany } from '../values/sayMany.ts';

/** What each column may be taken for, as it is said. */
const uses: readonly (readonly [ListingUse, string])[] = [
  ['title', 'the title'],
  ['description', 'the description'],
  ['words', 'more words, read with their heading'],
  ['price', 'the price asked'],
  ['link', 'the link'],
  ['carried', 'nothing; shown beside it'],
];

interface Props {
  readonly matched: ListingsMatched;
  readonly matching: ListingMatching;
  onMatching(matching: ListingMatching): void;
  onLook(where: { readonly sheet: string | null; readonly headings: number | null }): void;
  onJudge(): void;
}

/** What each column of a table of listings was taken for, over what stands in it, to be corrected; then it is judged. */
export function ListingColumns({ matched, matching, onMatching, onLook, onJudge }: Props) {
  const judge = useRef<HTMLButtonElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: whoever handed the table in goes on with Enter where it was taken rightly.
  useEffect(() => judge.current?.focus(), [matched.file]);
  const words = matching.columns.some((use) => use === 'title' || use === 'description' || use === 'words');
  return (
    <section aria-label="Columns of the table" className="listings-columns">
      <div className="listings-sum">
        <p>
          {matched.file}, {sayMany(matched.rows, 'row')}
        </p>
        {matched.sheets.length > 1 && (
          <label>
            Sheet{' '}
            <select
              className="field"
              value={matching.sheet ?? ''}
              onChange={(event) => onLook({ sheet: event.target.value, headings: null })}
            >
              {matched.sheets.map(({ name, hidden, rows }) => (
                <option key={name} value={name}>
                  {name}
                  {hidden ? ' (hidden)' : ''}, {sayMany(rows, 'row')}
                </option>
              ))}
            </select>
          </label>
        )}
        <label>
          Headings in row{' '}
          <input
            className="field listings-number"
            type="number"
            min={0}
            max={20000}
            key={matching.headings}
            defaultValue={matching.headings}
            aria-description="0 where there are none"
            onBlur={(event) => {
              const row = Number(event.target.value);
              if (Number.isInteger(row) && row >= 0 && row <= 20000 && row !== matching.headings)
                onLook({ sheet: matching.sheet, headings: row });
            }}
          />
        </label>
        <button ref={judge} type="button" className="button main" disabled={!words} onClick={onJudge}>
          Read {sayMany(matched.rows, 'listing')}
        </button>
      </div>
      {matched.notes.map((note) => (
        <p key={note} className="listings-note">
          {note}
        </p>
      ))}
      <p role="status" className="soft small">
        {words
          ? 'Each row is read by itself. A title, a description and more words are read; a price and a link are kept as they are told.'
          : 'Say which column holds the words of the listing: its title or its description.'}
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls in its own frame, and must do so by keyboard. */}
      <section className="listings-frame" aria-label="What the columns are" tabIndex={0}>
        <table className="line-table">
          <thead>
            <tr>
              <th scope="col">Column</th>
              <th scope="col">Taken for</th>
              <th scope="col">First rows</th>
            </tr>
          </thead>
          <tbody>
            {matching.columns.map((use, column) => {
              const match = matched.matches[column];
              const name = `${columnName(column)}${matched.headings[column] ? `, ${matched.headings[column]}` : ''}`;
              return (
                <tr key={columnName(column)}>
                  <th scope="row">
                    <span className="soft">{columnName(column)}</span>{' '}
                    {matched.headings[column] || <span className="faint">no heading</span>}
                  </th>
                  <td>
                    <select
                      className="field"
                      aria-label={`Take column ${name} for`}
                      value={use}
                      onChange={(event) =>
                        onMatching({
                          ...matching,
                          columns: matching.columns.map((one, at) => (at === column ? (event.target.value as ListingUse) : one)),
                        })
                      }
                    >
                      {uses.map(([value, label]) => (
                        <option key={value} value={value}>
                          {label}
                        </option>
                      ))}
                    </select>
                    {match !== undefined && match.use === use && <span className="sheet-detail">{match.why}</span>}
                  </td>
                  <td className="listings-sample">
                    {matched.first
                      .map((row) => row[column] ?? '')
                      .filter((text) => text !== '')
                      .slice(0, 3)
                      .map((text) => (text.length > 90 ? `${text.slice(0, 90)}…` : text))
                      .join(' · ')}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
    </section>
  );
}
