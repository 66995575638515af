import { useEffect, useRef } from 'react';
import type { ConflictGraph } from './conflictGraph.ts';
import { graphLook } from './graphLook.ts';
import { useDrawing } from './useDrawing.ts';

interface Props {
  readonly graph: ConflictGraph;
  readonly lit: ReadonlySet<string>;
  readonly picked: string | null;
  readonly label: string;
  onPick(node: string): void;
}

/** The graph drawn by cytoscape at fixed places. The list beside it says the same to those who do not see the canvas. */
export function GraphCanvas({ graph, lit, picked, label, onPick }: Props) {
  const box = useRef<HTMLDivElement>(null);
  const pick = useRef(onPick);
  pick.current = onPick;
  const drawn = useDrawing(box, {
    key: graph,
    width: graph.width,
    height: graph.height,
    largest: 1.3,
    elements: () => ({
      nodes: graph.nodes.map(({ x, y, ...data }) => ({ data: { ...data }, position: { x, y } })),
      edges: graph.edges.map((edge) => ({ data: { ...edge, kind: edge.source.split(':')[0] } })),
    }),
    look: graphLook,
    wire: (core) => {
      core.on('tap', 'node', (event) => pick.current(event.target.id()));
      core.on('mouseover mouseout', 'node', ({ type }) => {
        if (box.current !== null) box.current.style.cursor = type === 'mouseover' ? 'pointer' : '';
      });
    },
  });
  useEffect(() => {
    if (drawn === null || drawn.destroyed()) return;
    drawn.batch(() => {
      for (const node of drawn.nodes()) {
        const on = lit.has(node.id());
        node.toggleClass('lit', on).toggleClass('dim', !on && lit.size > 0 && node.data('kind') !== 'slot');
        node.toggleClass('picked', node.id() === picked);
      }
      for (const edge of drawn.edges()) {
        const on = lit.has(edge.source().id()) && lit.has(edge.target().id());
        edge.toggleClass('lit', on).toggleClass('dim', !on && lit.size > 0);
      }
    });
  }, [drawn, lit, picked]);

  return (
    <div className="graph-frame">
      <div ref={box} className="graph-canvas" role="img" aria-label={label} data-drawn={drawn !== null} />
    </div>
  );
}
