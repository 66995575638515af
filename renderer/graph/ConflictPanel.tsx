import './graph.css';
import { useMemo, useRef, useState } from 'react';
import type { CallArgs } from '../../electron/bridge/contract.ts';
import type { ConflictsTold } from '../../electron/bridge/verdict-calls.ts';
import type { Conflict, Name, Sheet } from '../../reasoner/index.ts';
import { reasonsApart } from '../../reasoner/plain/reasons-apart.ts';
import { reasonsPhrase } from '../../reasoner/plain/reasons-phrase.ts';
import { latestGiven, useAsk } from '../bridge/useAsk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import type { Words } from '../bridge/words.ts';
import { Pager } from '../look/Pager.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { usePlaceIn } from '../look/usePlaceIn.ts';
import { sayWhole } from '../values/figures.ts';
import { conflictGraph, nodesOf } from './conflictGraph.ts';
import { GraphCanvas } from './GraphCanvas.tsx';
import { GraphList } from './GraphList.tsx';
import { litConflicts, litNodes, type Picked } from './picked.ts';

const firstShown = 5;
const aPage = 50;

/** The reasons as sentences, with their graph beside them; what is picked on one side lights up on the other. */
export function ConflictPanel(props: {
  readonly conflicts: ConflictsTold;
  /** Whose conflicts they are, for asking for the rest of them. */
  readonly of: Omit<CallArgs<'verdict.reasons'>, 'from' | 'count'>;
  readonly sheet: Sheet;
  readonly name: Name | null;
  readonly label: string;
  /** Looks further, where the search stopped and that can be asked. */
  readonly onMore?: (() => void) | undefined;
}) {
  const { conflicts, of, sheet, name, label, onMore } = props;
  const words = useWords();
  const { lines } = conflicts;
  const [from, setFrom] = usePlaceIn(of);
  const [picked, setPicked] = useState<Picked>({ kind: 'conflict', index: 0 });
  const [all, setAll] = useState(false);
  const cut = lines > conflicts.found.length;
  const paged = useAsk('verdict.reasons', all && cut ? { ...of, from, count: aPage } : null);
  // Rows stay until the next are here, under the numbers that are theirs.
  const page = all && cut ? latestGiven(paged) : null;
  const found = page?.value.rows ?? conflicts.found;
  const before = page?.args.from ?? 0;
  const graph = useAlike(useMemo(() => conflictGraph(words, sheet, found, name), [words, sheet, found, name]));
  const members = useMemo(() => found.map(nodesOf), [found]);
  // A pick may outlive the conflict or node it named when the sheet changes; the first conflict then takes its place.
  const valid = picked.kind === 'conflict' ? picked.index < found.length : graph.nodes.some((node) => node.id === picked.id);
  const now: Picked = valid ? picked : { kind: 'conflict', index: 0 };
  const lit = useMemo(() => litNodes(now, found), [now, found]);
  const litRows = litConflicts(now, found);
  const pickNode = (id: string) => setPicked(now.kind === 'node' && now.id === id ? { kind: 'conflict', index: 0 } : { kind: 'node', id });
  const count = (node: string) => members.filter((one) => one.has(node)).length;
  const apart = useMemo(() => reasonsApart(conflicts), [conflicts]);
  // Before the rest is unfolded the reasons that are counted aloud are the ones that are shown.
  const folded = !all && now.kind !== 'node' && lines > Math.max(firstShown, apart.length);
  const shown = folded && apart.length > 1 ? apart : [...found.keys()].slice(0, folded ? firstShown : undefined);

  return (
    <div className="conflict-panel">
      <ol className="conflicts" aria-label={label} start={before + 1} aria-busy={paged.state === 'waiting'}>
        {shown.map((index, place) => (
          <li key={found[index]?.members.map((member) => JSON.stringify(member)).join()}>
            <button
              type="button"
              className={litRows.has(index) ? 'conflict is-lit' : 'conflict'}
              aria-pressed={now.kind === 'conflict' && now.index === index}
              onClick={() => setPicked({ kind: 'conflict', index })}
            >
              <span className="conflict-number">{before + place + 1}</span>
              <span>
                {found[index]?.sentence}
                {now.kind === 'node' && litRows.has(index) && <b className="conflict-has"> has what is picked</b>}
              </span>
              <span className="conflict-stage">{sayWhere(words, found[index])}</span>
            </button>
          </li>
        ))}
      </ol>
      {paged.state === 'trouble' && <TroubleNote lead="The other lines could not be listed." trouble={paged.trouble} />}
      {all && cut && <Pager what="lines" from={from} size={aPage} count={lines} onFrom={setFrom} />}
      <p className="small soft conflict-count">
        {!all && lines > shown.length && (
          <button type="button" className="button plain no-print" onClick={() => setAll(true)}>
            Show all {sayWhole(lines)} lines
          </button>
        )}
        {howMany(conflicts, folded && apart.length > 1)}
        {!conflicts.complete && onMore && (
          <button type="button" className="button plain no-print" onClick={onMore}>
            Look further
          </button>
        )}
      </p>
      <div className="graph-pair">
        <GraphList
          graph={graph}
          lit={lit}
          picked={now.kind === 'node' ? now.id : null}
          count={count}
          some={lines > found.length}
          onPick={pickNode}
        />
        <figure className="graph-figure">
          <figcaption className="graph-heads head">
            <span>entries</span>
            <span>parts</span>
            <span>joints</span>
            <span>name</span>
          </figcaption>
          <GraphCanvas
            graph={graph}
            lit={lit}
            picked={now.kind === 'node' ? now.id : null}
            label={`${label}, drawn as a graph. The list beside it says the same.`}
            onPick={pickNode}
          />
        </figure>
      </div>
    </div>
  );
}

/** How far the unit must be taken apart to see all that a reason names: `as received`, `core stripped, 82 min`. */
const sayWhere = (words: Words, conflict: Conflict | undefined): string =>
  conflict === undefined || conflict.stage === null
    ? ''
    : `${words.stageName(conflict.stage)}${conflict.minutes > 0 ? `, ${conflict.minutes} min` : ''}`;

/** The one before, where the new one says the same: what is drawn from it stays. */
function useAlike<T>(value: T): T {
  const text = useMemo(() => JSON.stringify(value), [value]);
  const kept = useRef({ value, text });
  if (text !== kept.current.text) kept.current = { value, text };
  return kept.current.value;
}

/** What is counted aloud is reasons that share no entry (K1); the lines are ways to put them. */
const howMany = ({ lines, complete, independent }: ConflictsTold, apartAlone: boolean): string => {
  if (complete && lines === 1) return 'This is the only reason. It falls if any one thing it names turns out otherwise.';
  const counted = reasonsPhrase(independent);
  const first = apartAlone
    ? `These are ${counted}: no entry is in two of them.`
    : independent.count === 1
      ? 'These lines are one reason: any two of them share an entry.'
      : `Among these lines are ${counted}, no two of which share an entry.`;
  return [
    first,
    'Each line holds by itself, and falls if any one thing it names turns out otherwise.',
    complete ? `There are ${sayWhole(lines)} lines in all.` : `The search stopped at ${sayWhole(lines)} lines; there may be more.`,
  ].join(' ');
};
