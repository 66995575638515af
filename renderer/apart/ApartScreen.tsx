import './apart.css';
import { useState } from 'react';
import type { CheckScope, SubjectRef } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { NoModelsYet, NothingYet } from '../look/NothingYet.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
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
      {!enough && <WhatToDo some={subjects.length > 0} />}
      {answer !== null && asked.state !== 'trouble' && <ApartAnswer answer={answer} />}
    </main>
  );
}

/** Before two are chosen. */
function WhatToDo({ some }: { readonly some: boolean }) {
  const { families } = useWords().vocabulary;
  if (families.length === 0) return <NoModelsYet so="so there is nothing to tell apart" />;
  return (
    <NothingYet>
      <p>
        {some
          ? 'Now a second one, to hold it against: type its name above.'
          : 'Type two to five families or models above, or parts of one slot. The answer is the fewest checks that tell them all apart.'}
      </p>
      {!some && families.length > 1 && (
        <p>
          For instance{' '}
          <a href={hrefOf({ screen: 'apart', subjects: families.slice(0, 2).map(({ id }) => ({ kind: 'family', id })) })}>
            {families
              .slice(0, 2)
              .map(({ name }) => name)
              .join(' and ')}
          </a>
          .
        </p>
      )}
    </NothingYet>
  );
}
