import { useMemo } from 'react';
import type { ObservationId } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { Letterhead } from '../look/Letterhead.tsx';
import { useOdds } from '../odds/useOdds.ts';
import { VerdictColumn } from '../verdict/VerdictColumn.tsx';
import { SheetColumn } from './SheetColumn.tsx';

/** How long typing may settle before the desk is asked, ms: shorter than a key stroke's pause, longer than a burst. */
const settle = 70;

/** The main screen: the sheet on the left, what follows from it on the right. */
export function UnitScreen() {
  const { sheet } = useBench();
  const matters = useMemo(() => whatMatters(sheet), [sheet]);
  const asked = useAsk('verdict.of', { sheet: matters }, settle);
  const odds = useOdds(matters);
  const answer = latest(asked);
  const disputed = useMemo(
    () => new Set<ObservationId>(answer?.kind === 'contradiction' ? answer.contradictions.flatMap((one) => one.observations) : []),
    [answer],
  );
  return (
    <main className="unit-screen">
      <h1 className="unseen">Unit on the bench</h1>
      <Letterhead onPaper />
      <SheetColumn verdict={answer?.kind === 'verdict' ? answer : null} disputed={disputed} />
      <VerdictColumn asked={asked} odds={odds} sheet={sheet} />
    </main>
  );
}
