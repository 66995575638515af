import { useMemo } from 'react';
import type { ModelId, PartId, TradeTerm } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { DrawingKey } from '../drawings/DrawingKey.tsx';
import { FeatureDrawing } from '../drawings/FeatureDrawing.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';
import { bestPart } from './bestPart.ts';

const modelsLooked = 24;

/**
 * The drawing that shows the term, of the part of the atlas that shows it best among those of some models all over the atlas.
 * @param bare the drawing alone and without figures, where the meaning is said beside it
 */
export function TermDrawn({ term, bare = false }: { readonly term: TradeTerm; readonly bare?: boolean }) {
  const words = useWords();
  const feature = term.drawn?.feature;
  const slot = feature === undefined ? undefined : words.feature(feature)?.slot;
  const models = useMemo((): ModelId[] => {
    const all = words.vocabulary.models;
    const step = Math.max(1, Math.ceil(all.length / modelsLooked));
    return all.filter((_, index) => index % step === 0).map(({ id }) => id);
  }, [words]);
  const sitting = useAsk('tree.parts', slot === undefined ? null : { models });
  const parts = useMemo((): PartId[] => {
    const listed = (latest(sitting) ?? []).flatMap((model) => model.slots.filter((one) => one.slot === slot).flatMap((one) => one.parts));
    return [...new Set(listed.map(({ id }) => id))].slice(0, 60);
  }, [sitting, slot]);
  const known = useAsk('apart.parts', parts.length === 0 ? null : { parts });
  const part = useMemo(
    () => (feature === undefined ? null : bestPart(latest(known) ?? [], feature, term.drawn?.best)),
    [known, feature, term],
  );
  if (feature === undefined || slot === undefined) return <p className="soft">The atlas has no feature by which this could be drawn.</p>;
  const trouble = sitting.state === 'trouble' ? sitting.trouble : known.state === 'trouble' ? known.trouble : null;
  if (trouble !== null) return <TroubleNote lead="No part could be read to draw it from." trouble={trouble} />;
  if (sitting.state === 'waiting' || known.state === 'waiting' || (parts.length > 0 && known.state === 'idle'))
    return <p className="soft">Drawing…</p>;
  if (bare) return <FeatureDrawing feature={feature} facts={part?.facts ?? {}} bare />;
  return (
    <div className="term-drawn">
      <FeatureDrawing feature={feature} facts={part?.facts ?? {}} />
      <p className="small soft">
        Picked out: {term.drawn?.look}.{' '}
        {part === null ? (
          'No part of the atlas was found to draw it from, so nothing in it has a size.'
        ) : (
          <>
            Drawn from <a href={hrefOf({ screen: 'atlas', page: { kind: 'part', id: part.id } })}>{part.name}</a>.
          </>
        )}
      </p>
      <DrawingKey />
    </div>
  );
}
