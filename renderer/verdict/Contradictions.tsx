import type { Contradicted, ObservationId, Sheet } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { sayObservation } from '../values/sayings.ts';
import { leadTo } from './leadTo.ts';

/** O6: entries that cannot both hold. They come before any reasoning, and each leads to its place on the sheet. */
export function Contradictions({ answer, sheet }: { readonly answer: Contradicted; readonly sheet: Sheet }) {
  const words = useWords();
  const say = (id: ObservationId) => {
    const observation = sheet.observations.find((one) => one.id === id);
    return observation === undefined ? id : sayObservation(words.feature(observation.feature), observation, words.unit);
  };
  return (
    <div className="block" role="alert">
      <h2 className="headline">Two entries disagree</h2>
      <p>Nothing is concluded until this is settled: correct one of them, or take it off the sheet.</p>
      <ul className="plain-list">
        {answer.contradictions.map((one) => (
          <li key={one.observations.join()} className="disagreement">
            <p>{one.sentence}</p>
            {one.meanings !== null && (
              <ul className="sentences">
                {one.meanings.map(({ observation, sentence }) => (
                  <li key={observation}>
                    <TermsText text={sentence} />
                  </li>
                ))}
              </ul>
            )}
            {one.observations.map((id) => (
              <button key={id} type="button" className="button" onClick={() => leadTo(id)}>
                Go to: {say(id)}
              </button>
            ))}
          </li>
        ))}
      </ul>
    </div>
  );
}
