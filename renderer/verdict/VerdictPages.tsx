import { useCallback, useState } from 'react';
import type { NameId, Sheet, Verdict } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { UnitPhotographs } from '../cases/UnitPhotographs.tsx';
import { usePreference } from '../look/preference.ts';
import type { OddsHeld } from '../odds/useOdds.ts';
import { WhatNext } from '../odds/WhatNext.tsx';
import { AnswerCard } from './AnswerCard.tsx';
import { Findings } from './Findings.tsx';
import { Names } from './Names.tsx';
import { PageSwitch, type VerdictPage, verdictPages } from './PageSwitch.tsx';
import { SlotsLeft } from './SlotsLeft.tsx';
import { UnitConflicts } from './UnitConflicts.tsx';
import { WhyNot } from './WhyNot.tsx';
import { WorthNote } from './WorthNote.tsx';

interface Props {
  readonly verdict: Verdict;
  readonly odds: OddsHeld;
  readonly sheet: Sheet;
}

/** The answer, and one page of what stands behind it: why, what to look at next, every name, the parts left, its photographs. */
export function VerdictPages({ verdict, odds, sheet }: Props) {
  const [asked, setAsked] = useState<NameId | null>(null);
  const { unit } = useBench();
  const [page, setPage] = usePreference('verdict page', verdictPages, 'why');
  const judged = (id: NameId | null) => verdict.names.find((one) => one.name.id === id) ?? null;
  // The name whose reasons are shown: one picked from the list, else the claimed one.
  const about = judged(asked) ?? judged(verdict.claim?.name ?? null);
  /** A page opens at its top: its heads go to the top of what is in sight. */
  const turnTo = useCallback(
    (next: VerdictPage) => {
      setPage(next);
      requestAnimationFrame(() => document.getElementById('verdict-pages')?.scrollIntoView({ block: 'start' }));
    },
    [setPage],
  );
  const onAbout = useCallback(
    (name: NameId | null) => {
      setAsked(name);
      turnTo('why');
      requestAnimationFrame(() => document.getElementById('verdict-why')?.focus({ preventScroll: true }));
    },
    [turnTo],
  );
  return (
    <div className="verdict-scroll">
      <AnswerCard verdict={verdict} odds={odds} sheet={sheet} onAbout={onAbout} onNames={() => turnTo('names')} />
      <PageSwitch page={page} onPage={turnTo} />
      <div className="verdict-page" id="verdict-page" role="tabpanel" aria-labelledby={`verdict-page-${page}`}>
        {page === 'why' && (
          <>
            <WhyNot
              verdict={verdict}
              sheet={sheet}
              about={about}
              picked={asked !== null && about?.name.id === asked}
              onBack={() => setAsked(null)}
            />
            <UnitConflicts verdict={verdict} sheet={sheet} beside={about?.status === 'ruled out'} />
            <Findings verdict={verdict} sheet={sheet} />
          </>
        )}
        {page === 'next' && <WhatNext odds={odds} verdict={verdict} sheet={sheet} />}
        {page === 'names' && <Names verdict={verdict} about={about?.name.id ?? null} onAbout={onAbout} />}
        {page === 'parts' && (
          <>
            <SlotsLeft verdict={verdict} />
            <WorthNote verdict={verdict} />
          </>
        )}
        {page === 'photographs' && <UnitPhotographs sheet={sheet} kept={unit.kept} />}
      </div>
    </div>
  );
}
