import { useMemo } from 'react';
import type { FeatureId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { drawingFor, scenesToOneScale } from './drawings.ts';
import type { Facts } from './reading.ts';
import { SceneView } from './SceneView.tsx';

/** Several parts by one feature, in the drawing that shows it, to one scale; nothing where no drawing does. */
export function DrawnSideBySide({
  feature,
  of,
}: {
  readonly feature: FeatureId;
  readonly of: readonly { readonly key: string; readonly title: string; readonly facts: Facts }[];
}) {
  const words = useWords();
  const scenes = useMemo(() => {
    const known = words.feature(feature);
    const drawing = known === undefined ? null : drawingFor(known, words.vocabulary, words.unit);
    return drawing === null
      ? null
      : scenesToOneScale(
          drawing,
          of.map(({ facts }) => facts),
        );
  }, [feature, of, words]);
  if (scenes === null) return null;
  return (
    <div className="drawings">
      {of.map(({ key, title }, i) => {
        const scene = scenes[i];
        return scene === undefined ? null : (
          <figure key={key} className="drawing">
            <SceneView scene={scene} asked={feature} />
            <figcaption>
              <b>{title}</b>
              <span className="drawing-view">{scene.title}</span>
            </figcaption>
          </figure>
        );
      })}
    </div>
  );
}
