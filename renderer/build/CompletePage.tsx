import { type FormEvent, useMemo, useState } from 'react';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { PartId } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayWhole } from '../values/figures.ts';
import { sayMany } from '../values/sayMany.ts';
import { CompletedTable } from './CompletedTable.tsx';
import { ConstraintsForm } from './ConstraintsForm.tsx';
import { type ConstraintsDraft, noConstraints, readConstraints } from './constraintsDraft.ts';
import type { Search } from './useCompletion.ts';
import type { SideBySide } from './useSideBySide.ts';

interface Props {
  readonly search: Search;
  readonly side: SideBySide;
  readonly stock: readonly PartId[];
  onStock(stock: readonly PartId[]): void;
}

/** “Fill the open slots”: what it must keep to, the search, and every build that no other beats. */
export function CompletePage({ search, side, stock, onStock }: Props) {
  const words = useWords();
  const { sheet } = useBench();
  const matters = useMemo(() => whatMatters(sheet), [sheet]);
  const answer = latest(useAsk('build.plan', { sheet: matters, stock: [...stock] }));
  const plan = answer?.kind === 'plan' ? answer : null;
  const [draft, setDraft] = useState<ConstraintsDraft>(noConstraints);
  const [fault, setFault] = useState<string | null>(null);
  const { stands } = search;
  const empty = words.slots.filter(({ id, group }) => group !== 'plate' && sheet.chosen[id] === undefined && !sheet.absent.includes(id));

  const start = (event: FormEvent) => {
    event.preventDefault();
    const read = readConstraints(draft, stock, words);
    setFault(read.ok ? null : read.sentence);
    if (read.ok) search.start({ sheet: matters, constraints: read.value } as CallArgs<'build.complete'>, matters);
  };
  return (
    <div className="complete-page">
      <form className="complete-form" aria-label="What the build must keep to" onSubmit={start} noValidate>
        <ConstraintsForm draft={draft} onDraft={setDraft} plan={plan} stock={stock} onStock={onStock} />
        <p className="small soft">
          {empty.length === 0
            ? 'Every slot is filled; the search only weighs what is there.'
            : `To be filled: ${empty.map(({ name }) => name).join(', ')}.`}
        </p>
        {fault !== null && (
          <p className="trouble" role="alert">
            {fault}
          </p>
        )}
        <div className="actions">
          {stands.state === 'running' && (
            <button type="button" className="button" disabled={stands.stopping} onClick={search.stop}>
              Stop here
            </button>
          )}
          <button type="submit" className="button main" disabled={stands.state === 'running'}>
            Fill the open slots
          </button>
        </div>
      </form>
      <section className="complete-found" aria-label="Builds found" aria-busy={stands.state === 'running'} data-state={stands.state}>
        {stands.state === 'none' && (
          <p className="soft">
            The search fills the open slots and keeps every build that no other beats in hours, cost, number of operations, name and what is
            left open, all together.
          </p>
        )}
        {stands.state === 'running' && (
          <div className="search-running">
            <p role="status">
              {stands.stopping ? 'Stopping… ' : 'Searching… '}
              {sayMany(stands.progress.found, 'build')} so far, {sayWhole(stands.progress.looked)} choices looked at.
            </p>
            <progress aria-label="Share of the choices looked at" max={1} value={stands.progress.share} />
          </div>
        )}
        {stands.state === 'trouble' && <TroubleNote lead="The search could not be done." trouble={stands.trouble} />}
        {stands.state === 'done' && <CompletedTable completion={stands.completion} of={stands.of} side={side} />}
      </section>
    </div>
  );
}
