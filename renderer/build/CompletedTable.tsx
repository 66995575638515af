import { Fragment, useState } from 'react';
import type { CompletedBuild, Completion, Sheet } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { PartName, PartNames } from '../bridge/PartNames.tsx';
import { PartText } from '../bridge/PartText.tsx';
import { useWords } from '../bridge/WordsContext.ts';
import { TermsText } from '../glossary/TermLink.tsx';
import { goTo } from '../route/route.ts';
import { fixed, sayWhole } from '../values/figures.ts';
import { sayMany } from '../values/sayMany.ts';
import { ColumnHeads } from './ColumnHeads.tsx';
import { sayHours, sayOperation } from './sayBuild.ts';
import { withAllChosen } from './startBuild.ts';

/** Whether these are all the builds there are, and if not, why not. */
export const sayComplete = ({ builds, stopped, complete, looked }: Completion): string => {
  const found = sayMany(builds.length, 'build');
  const after = `after ${sayWhole(looked)} choices`;
  if (complete) {
    return builds.length === 0
      ? 'No build keeps to all of this; every choice was looked at.'
      : `${found}. The list is complete: every other build that keeps to this is beaten by one of these.`;
  }
  switch (stopped) {
    case 'cancelled':
      return `${found} when it was stopped ${after}. The list is not complete.`;
    case 'too many builds':
      return `${found}; there are more than are shown. The list is not complete.`;
    case 'too many choices':
    case null:
      return `${found}; the search reached its limit ${after}. The list is not complete.`;
  }
};

/** The builds no other beats, each with what it takes; one of them can be put on the bench. */
export function CompletedTable({ completion, of }: { readonly completion: Completion; readonly of: Sheet }) {
  const words = useWords();
  const { edit } = useBenchActions();
  const [open, setOpen] = useState<number | null>(null);
  const choose = (build: CompletedBuild) => {
    edit(withAllChosen(build.chosen));
    goTo({ screen: 'build', place: 'bench' });
  };
  return (
    <>
      <p role="status" className="complete-word">
        {sayComplete(completion)}
      </p>
      {completion.empty.length > 0 && (
        <p>No part keeps to this in the {completion.empty.map((slot) => words.slotName(slot)).join(', ')}, whatever the others hold.</p>
      )}
      {completion.builds.length > 0 && (
        <table className="plan-table completed">
          <ColumnHeads
            of={[
              'May be called',
              { figures: 'Hours' },
              { figures: 'Cost added' },
              { figures: 'Operations' },
              { figures: 'Left open' },
              { unseen: 'Choose' },
            ]}
          />
          <tbody>
            {completion.builds.map((build, index) => (
              <Fragment key={Object.values(build.chosen).join()}>
                <tr>
                  <th scope="row">
                    <button
                      type="button"
                      className="row-fold"
                      aria-expanded={open === index}
                      onClick={() => setOpen(open === index ? null : index)}
                    >
                      <span aria-hidden="true">{open === index ? '▾' : '▸'}</span>{' '}
                      {build.names.map(({ text }) => text).join(' or ') || 'no name'}
                    </button>
                  </th>
                  <td className="number">{sayHours(build.hours)}</td>
                  <td className="number">
                    {build.cost === null ? (
                      <span className="soft">no rates</span>
                    ) : (
                      `${build.unpriced.length > 0 ? 'at least ' : ''}${fixed(build.cost, 2)}`
                    )}
                  </td>
                  <td className="number">{build.operations}</td>
                  <td className="number">{build.open}</td>
                  <td className="number">
                    <button type="button" className="button" onClick={() => choose(build)}>
                      Put on the bench <span className="unseen">build {index + 1}</span>
                    </button>
                  </td>
                </tr>
                {open === index && (
                  <tr className="whole-row">
                    <td colSpan={6}>
                      <CompletedWhole build={build} of={of} />
                    </td>
                  </tr>
                )}
              </Fragment>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}

/** The parts added, what would do as well, and the works. */
function CompletedWhole({ build, of }: { readonly build: CompletedBuild; readonly of: Sheet }) {
  const words = useWords();
  const added = words.slots.flatMap(({ id }) => {
    const part = build.chosen[id];
    return part === undefined || of.chosen[id] === part ? [] : [{ slot: id, part }];
  });
  return (
    <div className="small">
      <dl className="added">
        {added.map(({ slot, part }) => {
          const alike = build.alike.find((each) => each.slot === slot)?.parts.filter((other) => other !== part) ?? [];
          return (
            <div key={slot}>
              <dt>
                <TermsText text={words.slotName(slot)} />
              </dt>
              <dd>
                <PartName part={part} />
                {build.unpriced.includes(part) && <span className="soft"> (price not known)</span>}
                {alike.length > 0 && (
                  <span className="soft">
                    {' '}
                    or as well <PartNames parts={alike} />
                  </span>
                )}
              </dd>
            </div>
          );
        })}
      </dl>
      {build.works.length > 0 && (
        <ul className="plain-list">
          {build.works.map(({ operation, part, joint }) => (
            <li key={`${operation} ${part} ${joint}`}>
              {sayOperation(operation)}: <PartText part={part} />, for the {words.jointName(joint)}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
