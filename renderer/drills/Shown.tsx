import type { Drill, ShownSlot } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { drawingFor } from '../drawings/drawings.ts';
import { PartDrawing } from '../drawings/PartDrawing.tsx';
import { TermsText } from '../glossary/TermLink.tsx';

/** What a drill shows: slot by slot what was seen, drawn where a drawing shows it and always in words. */
export function Shown({ drill }: { readonly drill: Drill }) {
  const words = useWords();
  if (drill.shown.length === 0) return null;
  return (
    <dl className="drill-shown">
      {drill.shown.map((shown) => (
        <div key={shown.slot}>
          <dt>
            <TermsText text={words.slotName(shown.slot)} />
          </dt>
          <dd>
            {shown.part === null ? (
              <>
                <ul className="drill-says">
                  {shown.says.map((says) => (
                    <li key={says}>
                      <TermsText text={says} />
                    </li>
                  ))}
                </ul>
                <ShownDrawings shown={shown} />
              </>
            ) : (
              <span className="drill-part">{shown.part.name}</span>
            )}
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** The drawings that show something of what was seen. */
function ShownDrawings({ shown }: { readonly shown: ShownSlot }) {
  const { vocabulary, feature, unit } = useWords();
  const ids = Object.keys(shown.facts).flatMap((id) => {
    const known = feature(id as keyof ShownSlot['facts'] & string as never);
    const drawing = known === undefined ? null : drawingFor(known, vocabulary, unit);
    return drawing === null ? [] : [drawing.id];
  });
  return ids.length === 0 ? null : <PartDrawing slot={shown.slot} facts={shown.facts} only={[...new Set(ids)]} bare />;
}
