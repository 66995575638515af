import { useId, useState } from 'react';
import type { AlteredSeen, StoodEntry } from '../../db/answers.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { endOfDay, sayDay, today } from '../cases/sayCase.ts';
import { saySort } from '../edit/saySort.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayAmounts } from '../values/sayAmounts.ts';
import { sayMany } from '../values/sayMany.ts';
import { AlteredTable } from './AlteredTable.tsx';
import type { OfEntry } from './sayChange.ts';

/** The atlas, or one entry, as it stood at the end of a day. */
export function AsItStood({ of }: { readonly of: OfEntry | null }) {
  const id = useId();
  const [day, setDay] = useState('');
  const until = /^\d{4}-\d{2}-\d{2}$/.test(day) ? endOfDay(day) : null;
  return (
    <section className="as-it-stood no-print" aria-label="As it stood on a day">
      <p>
        <label htmlFor={id}>As it stood at the end of</label>{' '}
        <input id={id} type="date" className="field" max={today()} value={day} onChange={(event) => setDay(event.target.value)} />{' '}
        {day !== '' && (
          <button type="button" className="button" onClick={() => setDay('')}>
            Today again
          </button>
        )}
      </p>
      {until !== null && (of === null ? <Atlas day={day} until={until} /> : <Entry day={day} until={until} of={of} />)}
    </section>
  );
}

function Atlas({ day, until }: { readonly day: string; readonly until: string }) {
  const asked = useAsk('changes.stood', { until });
  const stood = latest(asked);
  if (asked.state === 'trouble') return <TroubleNote lead="It could not be worked out." trouble={asked.trouble} />;
  if (stood === null) return <p className="soft">Working it out…</p>;
  return (
    <div role="status">
      <p>
        {stood.packs.length === 0
          ? `At the end of ${sayDay(day)} the atlas held nothing.`
          : `At the end of ${sayDay(day)}: ${stood.packs
              .map(
                ({ title, edition, parts, models }) =>
                  `${title}, edition ${edition} (${sayMany(parts, 'part')}, ${sayMany(models, 'model')})`,
              )
              .join('; ')}.`}
      </p>
      <p>
        {stood.since.length === 0
          ? 'Nothing was changed since.'
          : `Since then: ${stood.since.map((count) => `${saySort(count.of)}, ${sayAmounts(count)}`).join('; ')}.`}
      </p>
    </div>
  );
}

function Entry({ day, until, of }: { readonly day: string; readonly until: string; readonly of: OfEntry }) {
  const asked = useAsk('changes.stoodEntry', { until, ...of });
  const stood = latest(asked);
  if (asked.state === 'trouble') return <TroubleNote lead="It could not be worked out." trouble={asked.trouble} />;
  if (stood === null) return <p className="soft">Working it out…</p>;
  const cells = differing(of, stood);
  return (
    <div role="status">
      <p>
        {stood.entry === null
          ? `At the end of ${sayDay(day)} it was not in the atlas.`
          : cells.length === 0
            ? `At the end of ${sayDay(day)} it was as it is today.`
            : `At the end of ${sayDay(day)} it said:`}
      </p>
      {stood.entry !== null && cells.length > 0 && <AlteredTable label="Then and today" cells={cells} inAll={cells.length} />}
    </div>
  );
}

/** The fields that say something else today, each fact by itself. */
const differing = (of: OfEntry, { entry, now }: StoodEntry): Omit<AlteredSeen, 'said' | 'leadsTo'>[] => {
  const cells: Omit<AlteredSeen, 'said' | 'leadsTo'>[] = [];
  const put = (field: string, line: string | null, before: unknown, after: unknown): void => {
    if (JSON.stringify(before) === JSON.stringify(after)) return;
    const as = (value: unknown): AlteredSeen['before'] => (value ?? null) as AlteredSeen['before'];
    cells.push({ pack: '', own: false, ...of, field, line, before: as(before), after: as(after) });
  };
  for (const field of new Set([...Object.keys(entry ?? {}), ...Object.keys(now ?? {})])) {
    if (field === 'factSources') continue;
    const [before, after] = [entry?.[field], now?.[field]];
    if (field === 'facts') {
      const [a, b] = [before, after] as readonly (Readonly<Record<string, unknown>> | undefined)[];
      for (const feature of new Set([...Object.keys(a ?? {}), ...Object.keys(b ?? {})])) put(field, feature, a?.[feature], b?.[feature]);
    } else put(field, null, before, after);
  }
  return cells;
};
