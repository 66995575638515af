import { useEffect, useRef } from 'react';
import type { JointId } from '../../reasoner/index.ts';
import { useDrawing } from '../graph/useDrawing.ts';
import type { FitGraphData } from './fitGraph.ts';
import { fitGraphLook } from './fitGraphLook.ts';

interface Props {
  readonly graph: FitGraphData;
  readonly picked: JointId | null;
  onPick(joint: JointId): void;
}

/** The build drawn by cytoscape at fixed places. The list beside it says the same to those who do not see the canvas. */
export function FitCanvas({ graph, picked, onPick }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const pick = useRef(onPick);
  pick.current = onPick;
  const drawn = useDrawing(box, {
    // The graph is a new object with every answer.
    key: JSON.stringify(graph),
    width: graph.width,
    height: graph.height,
    largest: 1.25,
    elements: () => ({
      nodes: graph.nodes.map(({ id, label, filled, x, y }) => ({
        data: { id, label, ...(filled ? { filled } : {}) },
        position: { x, y },
      })),
      edges: graph.edges.map((edge) => ({ data: { ...edge } })),
    }),
    look: fitGraphLook,
    wire: (core) => core.on('tap', 'edge', (event) => pick.current(event.target.id())),
  });

  useEffect(() => {
    if (drawn === null || drawn.destroyed()) return;
    drawn.batch(() => {
      for (const edge of drawn.edges()) {
        const on = edge.id() === picked;
        edge.toggleClass('picked', on).toggleClass('dim', picked !== null && !on);
      }
      const ends = picked === null ? null : drawn.getElementById(picked).connectedNodes();
      for (const node of drawn.nodes()) {
        const on = ends?.has(node) ?? false;
        node.toggleClass('picked', on).toggleClass('dim', ends !== null && !on);
      }
    });
  }, [drawn, picked]);

  return (
    <div className="graph-frame">
      <div
        ref={box}
        className="graph-canvas"
        role="img"
        aria-label="The build drawn as a graph, parts as plates and joints as numbered lines. The list beside it says the same."
        data-drawn={drawn !== null}
      />
    </div>
  );
}
