import './table.css';
import { useEffect, useRef } from 'react';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { CellsStep } from './CellsStep.tsx';
import { ChangeStep } from './ChangeStep.tsx';
import { ChooseStep } from './ChooseStep.tsx';
import { ColumnsStep } from './ColumnsStep.tsx';
import { type Step, useTable } from './useTable.ts';

const steps: readonly (readonly [Step, string])[] = [
  ['table', 'The table'],
  ['columns', 'Its columns'],
  ['cells', 'Its cells'],
  ['change', 'The change'],
];

/** A shop's own spreadsheet into the atlas: its columns matched, its cells mended, the change looked at and made; and the atlas out as one. */
export function TableScreen() {
  const table = useTable();
  const { step, matched, trouble } = table;
  const head = useRef<HTMLHeadingElement>(null);
  const first = useRef(true);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each step begins at its head, and the first is where the link led.
  useEffect(() => {
    if (first.current) first.current = false;
    else head.current?.focus();
  }, [step]);
  return (
    <main className={`page-screen table-screen is-${step}`}>
      <header className="page-ask">
        <h1 className="page-title" ref={head} tabIndex={-1}>
          Bring a spreadsheet
        </h1>
        <a className="no-print" href={hrefOf({ screen: 'atlas', page: null })}>
          Back to the atlas
        </a>
        {matched !== null && step !== 'table' && (
          <ol className="table-steps" aria-label="Steps">
            {steps.map(([name, label]) => (
              <li key={name}>
                <button
                  type="button"
                  className="button plain"
                  aria-current={name === step ? 'step' : undefined}
                  disabled={table.busy}
                  onClick={() => table.go(name)}
                >
                  {label}
                </button>
              </li>
            ))}
          </ol>
        )}
      </header>
      {trouble !== null && <TroubleNote lead={trouble.lead} trouble={trouble.trouble} />}
      {step === 'table' && <ChooseStep table={table} />}
      {step === 'columns' && <ColumnsStep table={table} />}
      {step === 'cells' && <CellsStep table={table} />}
      {step === 'change' && <ChangeStep table={table} />}
    </main>
  );
}
