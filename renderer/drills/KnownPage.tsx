import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { levelNames } from './levelNames.ts';
import { type FamilyKnown, sayKnown } from './sayKnown.ts';

/** Families down, learners across: how well each is known, and when it was last asked. */
export function KnownPage() {
  const words = useWords();
  const asked = useAsk('drills.known', {});
  const rows = latest(asked);
  if (asked.state === 'trouble') return <TroubleNote lead="What is known could not be read." trouble={asked.trouble} />;
  if (rows === null)
    return (
      <p className="soft page-hint" role="status">
        Reading what was answered…
      </p>
    );
  if (rows.length === 0)
    return <p className="soft page-hint">Nobody learns here yet. Add a learner above: what each knows then stands here in one table.</p>;
  const families = words.vocabulary.families.filter(({ id }) => rows.some(({ families: own }) => own.some(({ family }) => family === id)));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className="known-scroll" tabIndex={0} aria-label="Who knows what">
      <table className="page-table known">
        <caption className="small soft">
          Of each family: how much of what is asked about it was answered rightly the last time, and when any of it was last asked.
        </caption>
        <thead>
          <tr>
            <th scope="col">Family</th>
            {rows.map(({ learner }) => (
              <th scope="col" key={learner.id}>
                {learner.name}
                <span className="soft small"> {levelNames[learner.level]}</span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {families.map(({ id, name }) => (
            <tr key={id}>
              <th scope="row">{name}</th>
              {rows.map(({ learner, families: own }) => (
                <Cell key={learner.id} known={own.find(({ family }) => family === id) ?? null} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Cell({ known }: { readonly known: FamilyKnown | null }) {
  if (known === null) return <td className="soft small">not in the course</td>;
  const { meter, word, share, when } = sayKnown(known);
  return (
    <td>
      <span className="known-meter">
        <span aria-hidden="true" style={{ display: 'inline' }}>
          {meter}
        </span>{' '}
        {word}
      </span>
      {share !== '' && (
        <span className="small soft">
          {share}; {when}
        </span>
      )}
    </td>
  );
}
