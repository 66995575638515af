import type { Feature, Observation } from '../../reasoner/index.ts';
import { useBench, useBenchActions } from '../bench/BenchContext.ts';
import { withObservationChanged } from '../bench/sheetEdits.ts';
import { useAsk } from '../bridge/useAsk.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { SlipQuestion } from './SlipQuestion.tsx';

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
  const asked = useAsk('entry.slip', { sheet, feature: feature.id, value, sure });
  if (asked.state !== 'answered' || asked.value.kind === 'plausible') return null;
  if (asked.value.kind === 'impossible')
    return (
      <p className="editor-trouble" role="alert">
        {asked.value.sentence}
      </p>
    );
  return (
    <SlipQuestion
      feature={feature}
      slip={asked.value}
      unit={unit}
      takesFocus={false}
      onMeant={(meant) => edit(withObservationChanged({ ...observation, value: meant }))}
      onConfirmed={() => edit(withObservationChanged({ ...observation, confirmed: true }))}
      onReadAgain={onReadAgain}
    />
  );
}
