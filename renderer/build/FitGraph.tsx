import '../graph/graph.css';
import { useMemo, useState } from 'react';
import type { JointId, Plan } from '../../reasoner/index.ts';
import { FitMark } from '../atlas/FitMark.tsx';
import { useWords } from '../bridge/WordsContext.ts';
import { walkButtons } from './ChosenSlots.tsx';
import { FitCanvas } from './FitCanvas.tsx';
import { fitGraph } from './fitGraph.ts';

/** The build as a graph with fits as lines, and the same as a list; what is picked in one is lit in the other. */
export function FitGraph({ plan }: { readonly plan: Plan }) {
  const words = useWords();
  const graph = useMemo(() => fitGraph(words, plan), [words, plan]);
  const [picked, setPicked] = useState<JointId | null>(null);
  const pick = (joint: JointId) => setPicked((now) => (now === joint ? null : joint));
  return (
    <section className="block" id="plan-graph" tabIndex={-1} aria-labelledby="plan-graph-title">
      <h2 id="plan-graph-title" className="head">
        Graph
      </h2>
      <div className="graph-pair fit-graph">
        {/* biome-ignore lint/a11y/noStaticElementInteractions: arrow keys are an addition; every joint is a button of its own. */}
        <div onKeyDown={walkButtons}>
          <ol className="fit-list" aria-label="The graph in words">
            {graph.edges.map(({ id, number, source, target, verdict }) => (
              <li key={id}>
                <button type="button" className="node-line" aria-pressed={picked === id} onClick={() => pick(id)}>
                  <span className="fit-number">{number}</span>
                  <span>
                    {words.slotName(source)} and {words.slotName(target)}
                  </span>
                  {verdict === 'waits' ? <span className="small soft">waits</span> : <FitMark verdict={verdict} />}
                </button>
              </li>
            ))}
          </ol>
        </div>
        <figure className="graph-figure">
          <FitCanvas graph={graph} picked={picked} onPick={pick} />
          <figcaption className="small soft">
            Whole line: drops in. Long dashes: after work. Dots: not known. Heavy line: will not fit. Thin: a part is not chosen yet.
          </figcaption>
        </figure>
      </div>
    </section>
  );
}
