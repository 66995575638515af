import type { Feature, Observation } from '../../reasoner/index.ts';
import { blankSheet } from '../../reasoner/plain/blank-sheet.ts';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { withObservationChanged } from '../bench/sheetEdits.ts';
import { latestGiven, useAsk } from '../bridge/useAsk.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { SlipQuestion } from './SlipQuestion.tsx';
import { saysTheSame } from './slips.ts';

interface Props {
  readonly feature: Feature;
  readonly observation: Observation;
  readonly unit: LengthUnit;
  onReadAgain(): void;
}

/** The question under an entry that is on the sheet unasked: counted by tapping, from a draft, or kept before its feature had a range. */
export function RowSlip({ feature, observation, unit, onReadAgain }: Props) {
  const { sheet } = useBench();
  const { edit } = useBenchActions();
  const { value, sure } = observation;
  // Figures are asked about by themselves: what else is entered asks nothing anew, and the question stands still.
  const given = latestGiven(useAsk('entry.slip', { sheet: blankSheet(sheet.id), feature: feature.id, value, sure, lengths: unit }));
  if (given === null || given.value.kind === 'plausible' || !saysTheSame(given.args.value, value)) return null;
  const slip = given.value;
  if (slip.kind === 'impossible')
    return (
      <p className="editor-trouble" role="alert">
        {slip.sentence}
      </p>
    );
  return (
    <SlipQuestion
      feature={feature}
      slip={slip}
      unit={unit}
      takesFocus={false}
      onMeant={(meant) => edit(withObservationChanged({ ...observation, value: meant }))}
      onConfirmed={() => edit(withObservationChanged({ ...observation, confirmed: true }))}
      onReadAgain={onReadAgain}
    />
  );
}
