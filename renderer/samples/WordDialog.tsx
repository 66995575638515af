import type { FactOfSamples, FeatureId, FeatureSamples, PartId } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { useLengthUnit } from '../look/useLengthUnit.ts';
import { sayFact } from '../values/sayFact.ts';
import { ChangeDialog } from './ChangeDialog.tsx';

const rests: Readonly<Record<FactOfSamples['from'], string>> = {
  limits: 'From the mean to the limits within which 95 in 100 such parts lie, with 95 per cent confidence.',
  readings:
    'There are too few for limits, so it reaches over all that was read, each reading twice its uncertainty either way. Parts not yet measured may lie outside.',
  seen: 'What was seen of the parts in those cases.',
  disagree: '',
};

/** What was measured of a feature is taken as the shop's word for it: that is a decision, and a change of the atlas like any other. */
export function WordDialog(props: {
  readonly part: PartId;
  readonly feature: FeatureId;
  readonly samples: FeatureSamples & { readonly word: FactOfSamples };
  onMade(): void;
  onLeave(): void;
}) {
  const { part, feature, samples } = props;
  const { word } = samples;
  const apart = samples.kind === 'measure' ? (samples.statistics.outliers ?? []).length : 0;
  const words = useWords();
  const [unit] = useLengthUnit();
  const asked = useAsk('samples.word', { part, feature });
  const given = latest(asked);
  return (
    <ChangeDialog
      title={`The shop’s word: ${words.featureName(feature)}`}
      edits={given?.edits ?? []}
      source={given?.source ?? ''}
      nothing="Looking what it would change…"
      why="Taken from what was measured here."
      trouble={asked.state === 'trouble' ? asked.trouble : null}
      make="Take it as the shop’s word"
      onMade={props.onMade}
      onLeave={props.onLeave}
    >
      {word.fact !== null && (
        <p>
          From now on: <b>{sayFact(words.feature(feature), word.fact, unit)}</b>
        </p>
      )}
      {apart > 0 && (
        <p className="small samples-apart">
          {apart === 1
            ? 'One part stands apart and is counted in. Look at it again, and take it out first where it is not of this part.'
            : `${apart} parts stand apart and are counted in. Look at them again, and take out first what is not of this part.`}
        </p>
      )}
      <p className="small soft">{rests[word.from]} What the pack says is kept beside it, and the change can be undone.</p>
    </ChangeDialog>
  );
}
