import { useState } from 'react';
import type { CaseChanges } from '../../reasoner/index.ts';
import { StatusMark } from '../look/StatusMark.tsx';

const firstNames = 8;
const causes = { atlas: 'the atlas', entries: 'the entries', both: 'atlas and entries' } as const;

/** The differences of a kept verdict from today's, each with its cause. */
export function ChangesBlock({ changes }: { readonly changes: CaseChanges }) {
  const [all, setAll] = useState(false);
  const { editions, entries, names, slots } = changes;
  const shown = all ? names : names.slice(0, firstNames);
  return (
    <div className="changes">
      <p>{changes.sentence}</p>
      {editions.was !== editions.is && (
        <p className="edition-change">
          Judged then under <b>{editions.was}</b>; today’s atlas is <b>{editions.is}</b>.
        </p>
      )}
      {entries.length > 0 && (
        <>
          <h4>On the sheet</h4>
          <ol className="numbered small">
            {entries.map(({ sentence }) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ol>
        </>
      )}
      {names.length > 0 && (
        <table className="change-table small">
          <caption>Names with another status</caption>
          <thead>
            <tr>
              <th scope="col">Name</th>
              <th scope="col">Then</th>
              <th scope="col">Now</th>
              <th scope="col">Because of</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((name) => (
              <tr key={name.id}>
                <th scope="row">
                  {name.text}
                  {name.claimed && <span className="tag">claimed</span>}
                </th>
                <td>
                  <Then status={name.was} />
                </td>
                <td>
                  <Then status={name.is} />
                </td>
                <td>
                  {causes[name.because]}
                  {name.byItself.length > 0 && (
                    <span className="soft"> (by itself: {name.byItself.map((index) => index + 1).join(', ')})</span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {names.length > firstNames && !all && (
        <button type="button" className="button plain no-print" onClick={() => setAll(true)}>
          {names.length - firstNames} more
        </button>
      )}
      {slots.length > 0 && (
        <>
          <h4>In the atlas</h4>
          <ul className="plain-list small">
            {slots.map(({ slot, sentence }) => (
              <li key={slot}>{sentence}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}

function Then({ status }: { readonly status: CaseChanges['names'][number]['was'] }) {
  return status === 'not judged' ? <span className="faint">not judged</span> : <StatusMark status={status} />;
}
