import { Fragment, useState } from 'react';
import type { CompletedBuild, Completion, Sheet } from '../../reasoner/index.ts';
import { mostCompared } from '../../reasoner/plain/most-compared.ts';
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
import type { SideBySide } from './useSideBySide.ts';

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

interface Props {
  readonly completion: Completion;
  readonly of: Sheet;
  readonly side: SideBySide;
}

/** The builds no other beats, each with what it takes; some can be held side by side, and one put on the bench. */
export function CompletedTable({ completion, of, side }: Props) {
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
      {completion.builds.length > 0 && <CompareTicked side={side} />}
      {completion.builds.length > 0 && (
        <table className="plan-table completed">
          <ColumnHeads
            of={[
              'Compare',
              'May be called',
              { figures: 'Hours' },
              { figures: 'Cost added' },
              { figures: 'Operations' },
              { figures: 'Left open' },
            ]}
          />
          <tbody>
            {completion.builds.map((build, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: two variants may have the same parts and other work; the list never changes.
              <Fragment key={index}>
                <tr>
                  <td>
                    <VariantTick side={side} index={index} />
                  </td>
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
                    <button type="button" className="button plain put-on-bench" onClick={() => choose(build)}>
                      Put on the bench <span className="unseen">build {index + 1}</span>
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

function VariantTick({ side, index }: { readonly side: SideBySide; readonly index: number }) {
  const variant = side.variants[index];
  if (variant === undefined) return null;
  const ticked = side.columns.some((column) => column.kind === 'variant' && column.number === variant.number);
  return (
    <label className="variant-tick">
      <input
        type="checkbox"
        checked={ticked}
        disabled={!ticked && side.full}
        onChange={(event) => (event.target.checked ? side.add(variant) : side.takeOut(variant))}
      />{' '}
      <span className="unseen">Compare variant </span>
      {variant.number}
    </label>
  );
}

function CompareTicked({ side }: { readonly side: SideBySide }) {
  const ticked = side.columns.filter(({ kind }) => kind === 'variant').length;
  const beside = ticked === 0 ? 0 : side.columns.length - ticked;
  return (
    <p className="compare-ticked">
      <button type="button" className="button" disabled={ticked === 0} onClick={() => goTo({ screen: 'build', place: 'compare' })}>
        Compare those ticked
      </button>
      <span className="small soft">
        {ticked === 0 ? 'Tick two or more to hold them side by side.' : `${ticked} ticked`}
        {beside > 0 && `, and ${sayMany(beside, 'other build')} beside`}
        {ticked > 0 && side.full && `; ${mostCompared} side by side at most`}
        {ticked > 0 && '.'}
      </span>
    </p>
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
