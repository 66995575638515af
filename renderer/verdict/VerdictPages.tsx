import { memo, useCallback, useDeferredValue, useMemo, useState } from 'react';
import type { NameTold, VerdictAtOnce } from '../../electron/bridge/verdict-calls.ts';
import type { Name, NameId, Sheet } from '../../reasoner/index.ts';
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
  readonly verdict: VerdictAtOnce;
  readonly odds: OddsHeld;
  readonly sheet: Sheet;
}

/**
 * The answer, and one page of what stands behind it: why, what to look at next, every name, the parts left, its photographs. The answer is on the screen first; the page
 * follows it in the next moment.
 */
export function VerdictPages({ verdict, odds, sheet }: Props) {
  const [asked, setAsked] = useState<Name | null>(null);
  const [page, setPage] = usePreference('verdict page', verdictPages, 'why');
  const now = useMemo((): Props => ({ verdict, odds, sheet }), [verdict, odds, sheet]);
  const behind = useDeferredValue(now, null);
  /** A page opens at its top: its heads go to the top of what is in sight. */
  const turnTo = useCallback(
    (next: VerdictPage) => {
      setPage(next);
      requestAnimationFrame(() => document.getElementById('verdict-pages')?.scrollIntoView({ block: 'start' }));
    },
    [setPage],
  );
  const onAbout = useCallback(
    (name: Name | null) => {
      setAsked(name);
      turnTo('why');
      requestAnimationFrame(() => document.getElementById('verdict-why')?.focus({ preventScroll: true }));
    },
    [turnTo],
  );
  const onBack = useCallback(() => setAsked(null), []);
  const onNames = useCallback(() => turnTo('names'), [turnTo]);
  return (
    <div className="verdict-scroll">
      <AnswerCard verdict={verdict} odds={odds} sheet={sheet} onAbout={onAbout} onNames={onNames} />
      <PageSwitch page={page} onPage={turnTo} />
      <div className="verdict-page" id="verdict-page" role="tabpanel" aria-labelledby={`verdict-page-${page}`} aria-busy={behind !== now}>
        {behind !== null && <Page page={page} asked={asked} {...behind} onAbout={onAbout} onBack={onBack} />}
      </div>
    </div>
  );
}

interface PageProps extends Props {
  readonly page: VerdictPage;
  /** A name picked from the list. */
  readonly asked: Name | null;
  onAbout(name: Name): void;
  onBack(): void;
}

const Page = memo(function Page({ page, asked, verdict, odds, sheet, onAbout, onBack }: PageProps) {
  const judged = (id: NameId): NameTold | null => verdict.names.find((one) => one.name.id === id) ?? null;
  const claimed = verdict.claim === null || verdict.claim.name === null ? null : judged(verdict.claim.name);
  // The name whose reasons are shown: one picked from the list, else the claimed one.
  const known = asked === null ? claimed : judged(asked.id);
  const name = asked ?? claimed?.name ?? null;
  switch (page) {
    case 'why':
      return (
        <>
          <WhyNot verdict={verdict} sheet={sheet} name={name} known={known} picked={asked !== null} onBack={onBack} />
          <UnitConflicts verdict={verdict} sheet={sheet} beside={name !== null && (known === null || known.status === 'ruled out')} />
          <Findings verdict={verdict} sheet={sheet} />
        </>
      );
    case 'next':
      return <WhatNext odds={odds} verdict={verdict} sheet={sheet} />;
    case 'names':
      return <Names verdict={verdict} sheet={sheet} about={name?.id ?? null} onAbout={onAbout} />;
    case 'parts':
      return (
        <>
          <SlotsLeft verdict={verdict} sheet={sheet} />
          <WorthNote verdict={verdict} />
        </>
      );
    case 'photographs':
      return <Photographs sheet={sheet} />;
  }
});

function Photographs({ sheet }: { readonly sheet: Sheet }) {
  const { unit } = useBench();
  return <UnitPhotographs sheet={sheet} kept={unit.kept} />;
}
