import type { LearnerId } from '../../db/answers.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayDayOf } from '../values/days.ts';
import { apartHref, treeHref } from './confusionLinks.ts';

/** What was taken for what, how often and when last; each leads to what tells the two apart. */
export function ConfusionsPage({ learner }: { readonly learner: LearnerId }) {
  const asked = useAsk('drills.confusions', { learner });
  const rows = latest(asked);
  if (asked.state === 'trouble') return <TroubleNote lead="The confusions could not be read." trouble={asked.trouble} />;
  if (rows === null) return null;
  if (rows.length === 0) return <p className="soft page-hint">Nothing has been taken for anything else so far.</p>;
  return (
    <table className="confusions">
      <caption className="unseen">What was taken for what</caption>
      <thead>
        <tr>
          <th scope="col">It was</th>
          <th scope="col">taken for</th>
          <th scope="col">how often</th>
          <th scope="col">last</th>
          <th scope="col">
            <span className="unseen">told apart</span>
          </th>
          <th scope="col">
            <span className="unseen">in the tree</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ asked: was, answered, count, lastAt }) => {
          const apart = apartHref(was, answered);
          const tree = treeHref(was, answered);
          const pair = `${was.text} and ${answered.text}`;
          return (
            <tr key={`${was.kind} ${was.id} ${answered.kind} ${answered.id}`}>
              <th scope="row">{was.text}</th>
              <td>{answered.text}</td>
              <td>{count === 1 ? 'once' : `${count} times`}</td>
              <td>{sayDayOf(new Date(lastAt))}</td>
              <td>
                {apart !== null && (
                  <a href={apart} aria-label={`Tell apart ${pair}`}>
                    Tell apart
                  </a>
                )}
              </td>
              <td>
                {tree !== null && (
                  <a href={tree} aria-label={`In the tree ${pair}`}>
                    In the tree
                  </a>
                )}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
