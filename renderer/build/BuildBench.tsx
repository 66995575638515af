import { useMemo, useState } from 'react';
import type { PartId, SlotId } from '../../reasoner/index.ts';
import { useBench } from '../bench/BenchContext.ts';
import { whatMatters } from '../bench/whatMatters.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TitleAndClaim } from '../sheet/TitleAndClaim.tsx';
import { ChosenSlots } from './ChosenSlots.tsx';
import { PlanColumn } from './PlanColumn.tsx';
import { SlotChoice } from './SlotChoice.tsx';

/** How long clicks and typing may settle before the desk is asked, ms. */
const settle = 70;

interface Props {
  readonly stock: readonly PartId[];
  readonly several: readonly SlotId[];
}

/** Left the slots and what may go into one of them, right what follows from the parts chosen. */
export function BuildBench({ stock, several }: Props) {
  const words = useWords();
  const { sheet } = useBench();
  const matters = useMemo(() => whatMatters(sheet), [sheet]);
  const asked = useAsk('build.plan', { sheet: matters, stock: [...stock] }, settle);
  const answer = latest(asked);
  const [open, setOpen] = useState<SlotId | null>(null);
  // The first slot still empty is what is asked about, until the tuner turns to another.
  const slot =
    open ??
    words.slots.find(({ id, group }) => group !== 'plate' && sheet.chosen[id] === undefined && !sheet.absent.includes(id))?.id ??
    words.slots[0]?.id;
  return (
    <div className="build-bench">
      <section className="build-parts" aria-label="Parts of the build">
        <header className="build-head">
          <TitleAndClaim
            title={{ label: 'Title of the build', empty: 'Untitled build' }}
            claim={{ label: 'To be sold as', maker: 'Maker it is to be sold under' }}
          />
          {several.length > 0 && (
            <p className="small soft" role="status">
              Several parts are listed for the {several.map((id) => words.slotName(id)).join(', ')}; the first is taken.
            </p>
          )}
        </header>
        <ChosenSlots plan={answer?.kind === 'plan' ? answer : null} open={slot ?? null} onOpen={setOpen} />
        {slot !== undefined && <SlotChoice key={slot} slot={slot} sheet={matters} />}
      </section>
      <PlanColumn asked={asked} sheet={sheet} />
    </div>
  );
}
