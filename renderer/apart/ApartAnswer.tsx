import { useMemo, useState } from 'react';
import type { Apart, ApartRow, ApartSet, FeatureId, PartId } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { DrawingKey } from '../drawings/DrawingKey.tsx';
import { DrawnSideBySide } from '../drawings/DrawnSideBySide.tsx';
import { TermsText } from '../glossary/TermLink.tsx';
import { sayMany } from '../values/sayMany.ts';
import { ApartTable } from './ApartTable.tsx';
import { sayMinutes } from './sayMinutes.ts';

export function ApartAnswer({ answer }: { readonly answer: Apart }) {
  const [picked, setPicked] = useState<FeatureId | null>(null);
  // What is recommended is drawn, check by check, until a row of the table is picked.
  const recommended = answer.cheapest?.checks ?? answer.rows.slice(0, 1).map(({ feature }) => feature);
  const wanted = answer.rows.some(({ feature }) => feature === picked) ? [picked] : recommended;
  const drawn = wanted.flatMap((id) => answer.rows.find(({ feature }) => feature === id) ?? []);
  return (
    <>
      <div className="apart-top">
        <section aria-labelledby="apart-fewest">
          <Fewest answer={answer} />
          <NotApart answer={answer} />
        </section>
        {drawn.length > 0 && (
          <div className="apart-drawings">
            {drawn.map((row) => (
              <Drawn key={row.feature} answer={answer} row={row} />
            ))}
            <DrawingKey />
          </div>
        )}
      </div>
      <ApartTable answer={answer} picked={drawn.length === 1 ? (drawn[0]?.feature ?? null) : null} onPick={setPicked} />
      <footer className="apart-cautions">
        {answer.cautions.map((caution) => (
          <p key={caution} className="small soft">
            {caution}
          </p>
        ))}
      </footer>
    </>
  );
}

const numbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const say = (count: number): string => numbers[count] ?? String(count);

/** The fewest checks, the cheapest, the other sets as small, and why no fewer do. */
function Fewest({ answer }: { readonly answer: Apart }) {
  const { smallest, cheapest, pairs, notApart } = answer;
  if (cheapest === null) return <h2 id="apart-fewest">No known feature tells any of these apart</h2>;
  const all =
    notApart.length === 0
      ? pairs.length === 1
        ? 'the two'
        : `all ${say(answer.subjects.length)}`
      : `${pairs.length - notApart.length} of ${pairs.length} pairs`;
  const [first, ...others] = smallest.sets;
  return (
    <>
      <h2 id="apart-fewest">
        {capital(say(smallest.size))} check{smallest.size === 1 ? '' : 's'} tell{smallest.size === 1 ? 's' : ''} {all} apart
      </h2>
      {first !== undefined && <CheckSet set={first} />}
      {cheapest.minutes < (first?.minutes ?? 0) && (
        <>
          <h3 className="head">More checks, fewer minutes</h3>
          <CheckSet set={cheapest} />
        </>
      )}
      {others.length > 0 && (
        <details>
          <summary>
            {smallest.size === 1
              ? `${sayMany(smallest.count - 1, 'other check')} would do as well`
              : `${sayMany(smallest.count - 1, 'other set')} of ${say(smallest.size)}`}
            {smallest.count > smallest.sets.length && `, the first ${smallest.sets.length - 1} by minutes`}
          </summary>
          <ul className="other-sets">
            {others.map((set) => (
              <li key={set.checks.join()}>
                <SetInLine set={set} />
              </li>
            ))}
          </ul>
        </details>
      )}
      {smallest.size > 1 && smallest.words.length > 0 && (
        <details className="apart-proof" open>
          <summary>Why no fewer</summary>
          {smallest.words.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </details>
      )}
    </>
  );
}

function CheckSet({ set }: { readonly set: ApartSet }) {
  const words = useWords();
  return (
    <ol className="check-set">
      {set.checks.map((id) => {
        const feature = words.feature(id);
        return (
          <li key={id}>
            <b>
              <TermsText text={feature?.name ?? id} />
            </b>{' '}
            of the {feature !== undefined && <TermsText text={words.slotName(feature.slot)} />}
            <span className="soft small"> {feature === undefined ? '' : words.stageName(feature.stage)}</span>
          </li>
        );
      })}
      <li className="check-minutes">
        {sayMinutes(set.minutes)}
        {set.checks.length === 1 ? ', strip-down and all' : ' together, strip-down counted once'}
      </li>
    </ol>
  );
}

function SetInLine({ set }: { readonly set: ApartSet }) {
  const words = useWords();
  return (
    <>
      {set.checks
        .map((id) => {
          const feature = words.feature(id);
          return feature === undefined ? id : `${words.slotName(feature.slot)}: ${feature.name}`;
        })
        .join(' + ')}
      <span className="soft small"> {sayMinutes(set.minutes)}</span>
    </>
  );
}

/** Pairs nothing known separates, with what might if the atlas knew more. */
function NotApart({ answer }: { readonly answer: Apart }) {
  const words = useWords();
  if (answer.notApart.length === 0) return null;
  return (
    <div className="not-apart">
      <h3 className="head">Not told apart by any of these checks</h3>
      <ul>
        {answer.notApart.map(({ pair, might }) => {
          const [a, b] = answer.pairs[pair] ?? [0, 0];
          return (
            <li key={pair}>
              <b>
                {answer.subjects[a]?.name} and {answer.subjects[b]?.name}
              </b>
              {might.length > 0 && (
                <span className="small">
                  {' '}
                  might be, if the atlas knew more of: <TermsText text={might.map((id) => words.featureName(id)).join(', ')} />
                </span>
              )}
            </li>
          );
        })}
      </ul>
    </div>
  );
}

/** One part of each subject for each different look, a few at most, drawn to one scale. */
function Drawn({ answer, row }: { readonly answer: Apart; readonly row: ApartRow }) {
  const words = useWords();
  const shown = useMemo(
    () =>
      row.cells.flatMap((cell, i) => {
        const name = answer.subjects[i]?.name ?? '';
        const looks = cell.facts.slice(0, answer.subjects.length > 3 ? 1 : 2);
        return looks.map(({ part }) => ({ part, name, more: cell.facts.length - looks.length }));
      }),
    [answer, row],
  );
  const parts = useMemo(() => [...new Set(shown.map(({ part }) => part))], [shown]);
  const known = latest(useAsk('apart.parts', { parts }));
  const feature = words.feature(row.feature);
  const of = useMemo(() => {
    const facts = new Map<PartId, NonNullable<typeof known>[number]>((known ?? []).map((part) => [part.id, part]));
    return shown.flatMap(({ part, name, more }) => {
      const found = facts.get(part);
      const title = more > 0 ? `${name}, one of ${more + 1} looks` : name;
      return found === undefined ? [] : [{ key: `${name} ${part}`, title, facts: found.facts }];
    });
  }, [known, shown]);
  return (
    <section className="apart-drawn" aria-labelledby={`apart-drawn-${row.feature}`}>
      <h2 id={`apart-drawn-${row.feature}`} className="head">
        {feature === undefined ? row.feature : <TermsText text={`${words.slotName(feature.slot)}: ${feature.name}`} />}
      </h2>
      <DrawnSideBySide feature={row.feature} of={of} />
    </section>
  );
}
