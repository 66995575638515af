import './apart.css';
import { useState } from 'react';
import type { CheckScope, SubjectRef } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { ApartAnswer } from './ApartAnswer.tsx';
import { ScopeFields } from './ScopeFields.tsx';
import { SubjectPicker } from './SubjectPicker.tsx';

/** Two to five families, models or parts: what differs, the fewest checks that tell them apart, and why fewer do not. */
export function ApartScreen({ subjects }: { readonly subjects: readonly SubjectRef[] }) {
  const [scope, setScope] = useState<CheckScope>({});
  const enough = subjects.length >= 2;
  const asked = useAsk('apart.of', enough ? { subjects: [...subjects], scope } : null);
  const answer = enough ? latest(asked) : null;
  return (
    <main className="page-screen apart-screen" aria-busy={asked.state === 'waiting'}>
      <header className="page-ask">
        <h1 className="page-title">Tell apart</h1>
        <SubjectPicker subjects={subjects} />
        <ScopeFields scope={scope} onChange={setScope} />
        <button type="button" className="button no-print" disabled={answer === null} onClick={() => window.print()}>
          Print
        </button>
      </header>
      {asked.state === 'trouble' && <TroubleNote lead="These could not be told apart." trouble={asked.trouble} />}
      {!enough && (
        <p className="soft page-hint">
          Choose two to five families or models, or parts of one slot: the answer is the fewest checks that tell them all apart.
        </p>
      )}
      {answer !== null && asked.state !== 'trouble' && <ApartAnswer answer={answer} />}
    </main>
  );
}
