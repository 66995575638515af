import type { ReactNode } from 'react';
import type { AlteredSeen, ChangeSeen, Edit } from '../../db/answers.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayAmounts } from '../values/sayAmounts.ts';
import { CellEntry, CellSays, CellWhat } from './AlteredCell.tsx';
import { CarriedNotes } from './CarriedNotes.tsx';
import { CalledContext, useCalled } from './entryNames.ts';
import { FaultSaid } from './FaultSaid.tsx';
import { saySort } from './saySort.ts';
import type { Looked } from './useLook.ts';
import { WouldFollow } from './WouldFollow.tsx';

const most = 40;

/** What edits would change, beside them while they are typed: how many things, each before and after, and what stands in the way. */
export function ChangePanel(props: {
  readonly edits: readonly Edit[];
  readonly looked: Looked;
  /** What stands there while nothing is typed. */
  readonly nothing: string;
  readonly children?: ReactNode;
}) {
  const { edits, looked, nothing, children } = props;
  const { last, trouble } = looked;
  const called = useCalled(last?.called);
  // What the shop’s own pack is called is nothing anybody typed.
  const counts = last?.counts.filter(({ of }) => of !== 'pack') ?? [];
  // Of an entry that goes all it said goes too, and need not be told line by line.
  const gone = new Set(last?.cells.flatMap(({ list, id, field, after }) => (field === null && after === null ? [`${list} ${id}`] : [])));
  const cells = last?.cells.filter(({ list, id, field }) => list !== 'pack' && (field === null || !gone.has(`${list} ${id}`))) ?? [];
  const more = (last?.cellsInAll ?? 0) - (last?.cells.length ?? 0) + Math.max(0, cells.length - most);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, and by keyboard too.
    <aside className="edit-change" aria-label="What this would change" tabIndex={0}>
      <h2 className="head">What this would change</h2>
      {trouble !== null && <TroubleNote lead="It could not be looked at." trouble={trouble} />}
      {children}
      {last === null ? (
        trouble === null && <p className="soft small">{nothing}</p>
      ) : (
        <CalledContext value={called}>
          <div className={looked.seen === null ? 'edit-change-all stale' : 'edit-change-all'} aria-live="polite">
            {last.faults.length > 0 && (
              <section>
                <h3>{last.faults.length === 1 ? 'This stands in the way' : 'These stand in the way'}</h3>
                <ul className="edit-faults">
                  {last.faults.slice(0, most).map((fault) => (
                    <li key={`${fault.edit} ${fault.field} ${fault.sentence}`}>
                      <FaultSaid fault={fault} edits={edits} />
                    </li>
                  ))}
                </ul>
                {last.faults.length > most && <p className="small soft">and {last.faults.length - most} more</p>}
              </section>
            )}
            {last.warnings.length > 0 && (
              <section>
                <h3>Worth a second look</h3>
                <ul>
                  {last.warnings.slice(0, most).map((warning) => (
                    <li key={`${warning.place} ${warning.sentence}`}>
                      {capital(warning.found)}. {warning.means}
                    </li>
                  ))}
                </ul>
              </section>
            )}
            <WouldFollow edits={edits} seen={looked.seen} />
            <p className="small">
              {counts.length === 0
                ? last.faults.length > 0
                  ? ''
                  : 'Nothing: the atlas says all of it already.'
                : counts.map(sayCount).join(' ')}
            </p>
            <CarriedNotes carried={last.carried} />
            <ul className="edit-cells">
              {cells.slice(0, most).map((cell) => (
                <CellRow key={`${cell.pack} ${cell.list} ${cell.id} ${cell.field} ${cell.line}`} cell={cell} />
              ))}
            </ul>
            {more > 0 && <p className="small soft">and {more} more</p>}
          </div>
        </CalledContext>
      )}
    </aside>
  );
}

const sayCount = (count: ChangeSeen['counts'][number]): string => `${capital(saySort(count.of))}: ${sayAmounts(count)}.`;

/** One cell, before and after, and what the pack says where that is another thing. */
function CellRow({ cell }: { readonly cell: AlteredSeen }) {
  return (
    <li>
      <span className="small soft">
        <CellEntry cell={cell} />
      </span>
      <br />
      <CellWhat cell={cell} />:{' '}
      {cell.before !== null && (
        <>
          <del>
            <CellSays cell={cell} said={cell.before} than={cell.after} />
          </del>{' '}
          →{' '}
        </>
      )}
      <ins>
        <CellSays cell={cell} said={cell.after} than={cell.before} />
      </ins>
      {!cell.own && cell.said !== null && cell.said !== undefined && cell.field !== null && (
        <span className="small soft">
          {' '}
          The pack says <CellSays cell={cell} said={cell.said} than={cell.after} />; the shop’s word goes before it.
        </span>
      )}
    </li>
  );
}
