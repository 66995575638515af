import { useMemo } from 'react';
import type { FeatureId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { drawingFor } from './drawings.ts';
import type { Facts } from './reading.ts';
import { SceneFigure } from './SceneFigure.tsx';

/** The one drawing that shows a feature, with it brought forward; nothing where no drawing shows it. Without facts everything in it is unknown. */
export function FeatureDrawing({
  feature,
  facts,
  bare = false,
}: {
  readonly feature: FeatureId;
  readonly facts: Facts;
  readonly bare?: boolean;
}) {
  const words = useWords();
  const scene = useMemo(() => {
    const known = words.feature(feature);
    return known === undefined ? null : (drawingFor(known, words.vocabulary, words.unit)?.scene(facts) ?? null);
  }, [feature, facts, words]);
  return scene === null ? null : <SceneFigure scene={scene} asked={feature} bare={bare} featureName={words.featureName} />;
}
