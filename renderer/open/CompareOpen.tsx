import type { ReactNode } from 'react';
import { useMemo } from 'react';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { FitMark } from '../atlas/FitMark.tsx';
import { type OpenUnit, useBenchActions, useOpenUnits } from '../bench/BenchContext.ts';
import { titleOf } from '../bench/titleOf.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { StatusMark } from '../look/StatusMark.tsx';
import { useOdds } from '../odds/useOdds.ts';

/** What is answered of every open unit and build, one row each; its name opens it. */
export function CompareOpen({ onLeave }: { onLeave(): void }) {
  const { units, shown } = useOpenUnits();
  const { turnTo } = useBenchActions();
  return (
    <ModalBox className="compare-open" title="What is open, side by side" onLeave={onLeave}>
      <div className="compare-open-scroll">
        <table className="line-table">
          <thead>
            <tr>
              <th scope="col">Unit or build</th>
              <th scope="col">Offered as</th>
              <th scope="col">Honest name</th>
              <th scope="col">Next check</th>
            </tr>
          </thead>
          <tbody>
            {units.map((one) => (
              <OpenRow
                key={one.id}
                one={one}
                first={one.id === shown}
                onOpen={() => {
                  onLeave();
                  turnTo(one.id);
                }}
              />
            ))}
          </tbody>
        </table>
      </div>
      <div className="actions">
        <button type="button" className="button" onClick={onLeave}>
          Close
        </button>
      </div>
    </ModalBox>
  );
}

interface RowProps {
  readonly one: OpenUnit;
  /** Where the focus begins. */
  readonly first: boolean;
  onOpen(): void;
}

function OpenRow({ one, first, onOpen }: RowProps) {
  const sheet = useSheetOf(one.id);
  return (
    <tr>
      <th scope="row">
        {/* biome-ignore lint/a11y/noAutofocus: a box over the window takes the focus; it begins at what is shown. */}
        <button type="button" className="link" autoFocus={first} onClick={onOpen}>
          {titleOf(one)}
        </button>
        {one.number !== null && <span className="sheet-detail">case {one.number}</span>}
        {one.unsaved && <span className="sheet-detail">not saved</span>}
      </th>
      {sheet === null ? <td colSpan={3} /> : sheet.kind === 'found' ? <FoundCells sheet={sheet} /> : <PlannedCells sheet={sheet} />}
    </tr>
  );
}

function FoundCells({ sheet }: { readonly sheet: Sheet }) {
  const answer = latest(useAsk('verdict.of', { sheet }));
  const odds = useOdds(sheet, answer !== null);
  const { said } = odds.advice;
  if (answer === null) return <Waiting />;
  if (answer.kind === 'contradiction')
    return (
      <>
        <td>{sheet.claimed ?? <span className="soft">nothing claimed</span>}</td>
        <td colSpan={2}>Two entries disagree.</td>
      </>
    );
  const honest = answer.names.filter(({ name }) => answer.honest.includes(name.id));
  return (
    <>
      <td>
        {answer.claim === null ? (
          <span className="soft">nothing claimed</span>
        ) : (
          <>
            <q>{answer.claim.text}</q> <StatusMark status={answer.claim.status} />
          </>
        )}
      </td>
      <td>
        {sheet.observations.length === 0 ? (
          <span className="soft">nothing entered</span>
        ) : (
          <Names of={honest.map(({ name }) => name.text)} />
        )}
      </td>
      <td>
        {said === null ? (
          <span className="soft">…</span>
        ) : said.kind === 'stop' ? (
          'You may stop.'
        ) : 'check' in said ? (
          said.brief
        ) : (
          <span className="soft">none</span>
        )}
      </td>
    </>
  );
}

function PlannedCells({ sheet }: { readonly sheet: Sheet }) {
  const answer = latest(useAsk('build.plan', { sheet, stock: [] }));
  if (answer === null) return <Waiting />;
  if (answer.kind === 'contradiction') return <td colSpan={3}>Two entries disagree.</td>;
  const honest = answer.names.filter(({ name }) => answer.honest.includes(name.id));
  return (
    <>
      <td>{sheet.claimed === null ? <span className="soft">planned build</span> : <q>{sheet.claimed}</q>}</td>
      <td>
        <Names of={honest.map(({ name }) => name.text)} />
      </td>
      <td>
        <FitMark verdict={answer.verdict} />
      </td>
    </>
  );
}

const Names = ({ of }: { readonly of: readonly string[] }): ReactNode => of.join(' or ');

const Waiting = () => (
  <td colSpan={3} className="soft">
    Judging…
  </td>
);

/** As it was when the box was opened: behind a box nothing is entered. */
const useSheetOf = (id: SheetId): Sheet | null => {
  const { openUnit } = useBenchActions();
  return useMemo(() => {
    const unit = openUnit(id);
    return unit === null ? null : whatMatters(unit.history.present);
  }, [openUnit, id]);
};
