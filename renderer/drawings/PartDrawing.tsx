import { useMemo } from 'react';
import type { SlotId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { drawingsOf } from './drawings.ts';
import type { Facts } from './reading.ts';
import { SceneFigure } from './SceneFigure.tsx';

/**
 * Every drawing of a part, from what the atlas knows of it.
 * @param facts `factsOf(page.facts)` of an atlas page, or a part's own facts
 * @param only ids of the drawings wanted, of `drawingsOf`
 * @param bare without words and figures
 */
export function PartDrawing({
  slot,
  facts,
  only,
  bare = false,
}: {
  readonly slot: SlotId;
  readonly facts: Facts;
  readonly only?: readonly string[];
  readonly bare?: boolean;
}) {
  const words = useWords();
  const scenes = useMemo(
    () =>
      drawingsOf(slot, words.vocabulary, words.unit)
        .filter((drawing) => only?.includes(drawing.id) ?? true)
        .map((drawing) => ({ id: drawing.id, scene: drawing.scene(facts) })),
    [slot, facts, only, words],
  );
  if (scenes.length === 0) return null;
  return (
    <div className="drawings">
      {scenes.map(({ id, scene }) => (
        <SceneFigure key={id} scene={scene} bare={bare} featureName={words.featureName} />
      ))}
    </div>
  );
}
