import type { FeatureId } from '../../reasoner/index.ts';
import { SceneView } from './SceneView.tsx';
import type { Scene } from './scene.ts';

/** A drawing with its title, and with what the atlas does not know of it in words. */
export function SceneFigure({
  scene,
  asked = null,
  bare = false,
  featureName,
}: {
  readonly scene: Scene;
  readonly asked?: FeatureId | null;
  readonly bare?: boolean;
  readonly featureName: (feature: FeatureId) => string;
}) {
  return (
    <figure className="drawing">
      <SceneView scene={scene} asked={asked} bare={bare} />
      <figcaption>
        {scene.title}
        {!scene.toScale && <span className="soft"> · not to scale</span>}
        {!bare && scene.unknown.length > 0 && (
          <span className="drawing-unknown">Not known: {scene.unknown.map(featureName).join(', ')}</span>
        )}
      </figcaption>
    </figure>
  );
}
