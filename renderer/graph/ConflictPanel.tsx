import './graph.css';
import { useMemo, useState } from 'react';
import type { Conflicts, Name, Sheet } from '../../reasoner/index.ts';
import { reasonsPhrase } from '../../reasoner/plain/reasons-phrase.ts';
import { capital } from '../../reasoner/plain/text.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { conflictGraph, nodesOf } from './conflictGraph.ts';
import { GraphCanvas } from './GraphCanvas.tsx';
import { GraphList } from './GraphList.tsx';
import { litConflicts, litNodes, type Picked } from './picked.ts';

const firstShown = 5;

/** The reasons as sentences, with their graph beside them; what is picked on one side lights up on the other. */
export function ConflictPanel(props: {
  readonly conflicts: Conflicts;
  readonly sheet: Sheet;
  readonly name: Name | null;
  readonly label: string;
  /** Looks further, where the search stopped and that can be asked. */
  readonly onMore?: (() => void) | undefined;
}) {
  const { conflicts, sheet, name, label, onMore } = props;
  const words = useWords();
  const { found } = conflicts;
  const [picked, setPicked] = useState<Picked>({ kind: 'conflict', index: 0 });
  const [all, setAll] = useState(false);
  const graph = useMemo(() => conflictGraph(words, sheet, found, name), [words, sheet, found, name]);
  const members = useMemo(() => found.map(nodesOf), [found]);
  // A pick may outlive the conflict or node it named when the sheet changes; the first conflict then takes its place.
  const valid = picked.kind === 'conflict' ? picked.index < found.length : graph.nodes.some((node) => node.id === picked.id);
  const now: Picked = valid ? picked : { kind: 'conflict', index: 0 };
  const lit = useMemo(() => litNodes(now, found), [now, found]);
  const litRows = litConflicts(now, found);
  const pickNode = (id: string) => setPicked(now.kind === 'node' && now.id === id ? { kind: 'conflict', index: 0 } : { kind: 'node', id });
  const count = (node: string) => members.filter((one) => one.has(node)).length;
  const shown = all || now.kind === 'node' ? found : found.slice(0, firstShown);

  return (
    <div className="conflict-panel">
      <ol className="conflicts" aria-label={label}>
        {shown.map((conflict, index) => (
          <li key={conflict.members.map((member) => JSON.stringify(member)).join()}>
            <button
              type="button"
              className={litRows.has(index) ? 'conflict is-lit' : 'conflict'}
              aria-pressed={now.kind === 'conflict' && now.index === index}
              onClick={() => setPicked({ kind: 'conflict', index })}
            >
              <span className="conflict-number">{index + 1}</span>
              <span>
                {conflict.sentence}
                {now.kind === 'node' && litRows.has(index) && <b className="conflict-has"> has what is picked</b>}
              </span>
              <span className="conflict-stage">
                {conflict.stage !== null && words.stageName(conflict.stage)}
                {conflict.minutes > 0 && `, ${conflict.minutes} min`}
              </span>
            </button>
          </li>
        ))}
      </ol>
      <p className="small soft conflict-count">
        {found.length > shown.length && (
          <button type="button" className="button plain no-print" onClick={() => setAll(true)}>
            Show all {found.length} lines
          </button>
        )}
        {howMany(conflicts)}
        {!conflicts.complete && onMore && (
          <button type="button" className="button plain no-print" onClick={onMore}>
            Look further
          </button>
        )}
      </p>
      <div className="graph-pair">
        <GraphList graph={graph} lit={lit} picked={now.kind === 'node' ? now.id : null} count={count} onPick={pickNode} />
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

/** What is counted aloud is reasons that share no entry (K1); the lines are ways to put them. */
const howMany = ({ found, complete, independent }: Conflicts): string => {
  if (complete && found.length === 1) return 'This is the only reason, and it needs all that it names.';
  const shared = independent.count === 1 ? 'each two of these lines share an entry' : 'no entry is in two of them';
  return [
    `${capital(reasonsPhrase(independent))}: ${shared}.`,
    'Each line is enough by itself, and needs all that it names.',
    complete ? `There are ${found.length} such lines in all.` : `The search stopped at ${found.length} lines; there may be more.`,
  ].join(' ');
};
