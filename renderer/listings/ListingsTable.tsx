import { useLayoutEffect, useRef } from 'react';
import type { Beside, ListingsRow, Standing } from '../../reasoner/index.ts';
import { plainnessPhrase } from '../../reasoner/plain/plainness-phrase.ts';
import { StatusMark } from '../look/StatusMark.tsx';
import { titleOf } from '../shelf/useShelf.ts';

interface Props {
  readonly rows: readonly ListingsRow[];
  /** How many there are in all. */
  readonly inAll: number;
  /** The row the focus belongs to, by its source: it was opened, and somebody came back. */
  readonly at: string | null;
  onOpen(row: ListingsRow): void;
  onMore(): void;
}

/** The rows, plainest failure first: where each stands, why, where to look first, and of sheets what they may be called. */
export function ListingsTable({ rows, inAll, at, onOpen, onMore }: Props) {
  const back = useRef<HTMLButtonElement>(null);
  useLayoutEffect(() => back.current?.focus(), []);
  const ofSheets = rows.some(({ may }) => may !== null);
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls in its own frame, and must do so by keyboard. */}
      <section className="listings-frame" aria-label="The list" tabIndex={0}>
        <table className={`line-table listings-table${ofSheets ? ' has-may' : ''}`}>
          <thead>
            <tr>
              <th scope="col" className="listings-place">
                #
              </th>
              <th scope="col">Listing</th>
              <th scope="col">Standing</th>
              <th scope="col">Why</th>
              {ofSheets && <th scope="col">May be described as</th>}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, index) => (
              <tr key={`${row.source} ${row.sheet}`}>
                <td className="listings-place">{index + 1}</td>
                <th scope="row">
                  {row.sheet === null ? (
                    <span className="listings-title">{row.source}</span>
                  ) : (
                    <button
                      type="button"
                      ref={row.source === at ? back : undefined}
                      className="link listings-title"
                      onClick={() => onOpen(row)}
                    >
                      {titleOf(row.title)}
                    </button>
                  )}
                  {row.claimed !== null && <span className="sheet-detail">offered as “{row.claimed}”</span>}
                  {row.offer !== null && <BesideIt beside={row.offer} />}
                  {row.sheet !== null && <span className="sheet-detail">{row.source}</span>}
                </th>
                <td>
                  <Mark standing={row.standing} />
                  {row.plainness !== null && <span className="sheet-detail">{plainnessPhrase(row.plainness)}</span>}
                </td>
                <td>
                  {row.sentences.map((sentence) => (
                    <p key={sentence}>{sentence}</p>
                  ))}
                  {row.lookFirst !== null && <p className="listings-look">{row.lookFirst}</p>}
                </td>
                {ofSheets && <td>{row.may}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {inAll > rows.length && (
        <button type="button" className="button no-print" onClick={onMore}>
          {inAll - rows.length} more
        </button>
      )}
    </>
  );
}

function BesideIt({ beside: { price, link, carried } }: { readonly beside: Beside }) {
  return (
    <>
      {price !== null && <span className="sheet-detail">asked: {price}</span>}
      {link !== null && <span className="sheet-detail">{link}</span>}
      {carried.length > 0 && (
        <span className="sheet-detail">{carried.map(({ heading, text }) => `${heading}: ${short(text)}`).join(' · ')}</span>
      )}
    </>
  );
}

const short = (text: string): string => (text.length > 80 ? `${text.slice(0, 80)}…` : text);

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
    case 'own words against it':
      return <b className="listings-mark is-open">{standing}</b>;
    case 'nothing claimed':
    case 'planned build':
    case 'not reached':
      return <span className="listings-mark">{standing}</span>;
  }
}
