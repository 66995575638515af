import { useEffect, useMemo } from 'react';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { ObservationId } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { isBlank } from '../bench/unit.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, type Pause, useAsk } from '../bridge/useAsk.ts';
import { Letterhead } from '../look/Letterhead.tsx';
import { at } from '../look/landmarks.ts';
import { useOdds } from '../odds/useOdds.ts';
import { VerdictColumn } from '../verdict/VerdictColumn.tsx';
import { SheetColumn } from './SheetColumn.tsx';

/** A name that is being typed may settle before the desk is asked, ms: shorter than a key stroke's pause, longer than a burst. An entry is asked about at once. */
const settle: Pause<CallArgs<'verdict.of'>> = (before, { sheet }) => (before !== null && before.sheet.claimed !== sheet.claimed ? 70 : 0);

/** The main screen: the sheet on the left, what follows from it on the right. */
export function UnitScreen() {
  const { unit, sheet } = useBench();
  const matters = useMemo(() => whatMatters(sheet), [sheet]);
  const asked = useAsk('verdict.of', { sheet: matters }, settle);
  const odds = useOdds(matters, asked.state !== 'waiting');
  const answer = latest(asked);
  // A new unit begins with what it is offered as; a focus that is anywhere is left there.
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked once for each sheet that comes to the bench.
  useEffect(() => {
    if (isBlank(unit) && document.activeElement === document.body) document.querySelector<HTMLElement>(at('claim'))?.focus();
  }, [sheet.id]);
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
