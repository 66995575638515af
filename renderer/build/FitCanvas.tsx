import type { Core } from 'cytoscape';
import { useEffect, useRef, useState } from 'react';
import type { JointId } from '../../reasoner/index.ts';
import { keepOutOwnStyles } from '../graph/GraphCanvas.tsx';
import { onThemeChange } from '../look/theme.ts';
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
  const [drawn, setDrawn] = useState<Core | null>(null);
  const pick = useRef(onPick);
  pick.current = onPick;
  const key = JSON.stringify(graph);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` stands for `graph`, a new object with every answer.
  useEffect(() => {
    const container = box.current;
    if (container === null) return;
    let core: Core | null = null;
    let left = false;
    const toWidth = () => {
      if (core === null || container.clientWidth === 0) return;
      const scale = Math.min(1.25, Math.max(0.6, container.clientWidth / graph.width));
      container.style.height = `${Math.ceil(graph.height * scale)}px`;
      core.resize();
      core.viewport({ zoom: scale, pan: { x: 0, y: 0 } });
    };
    void import('cytoscape').then(({ default: cytoscape }) => {
      if (left) return;
      keepOutOwnStyles();
      core = cytoscape({
        container,
        style: fitGraphLook(container),
        elements: {
          nodes: graph.nodes.map(({ id, label, filled, x, y }) => ({
            data: { id, label, ...(filled ? { filled } : {}) },
            position: { x, y },
          })),
          edges: graph.edges.map((edge) => ({ data: { ...edge } })),
        },
        layout: { name: 'preset', fit: false },
        userZoomingEnabled: false,
        userPanningEnabled: false,
        boxSelectionEnabled: false,
        autoungrabify: true,
        autounselectify: true,
      });
      core.on('tap', 'edge', (event) => pick.current(event.target.id()));
      toWidth();
      setDrawn(core);
    });
    const resized = new ResizeObserver(toWidth);
    resized.observe(container);
    const unheard = onThemeChange(() => {
      core?.style(fitGraphLook(container));
      core?.forceRender();
    });
    return () => {
      left = true;
      resized.disconnect();
      unheard();
      core?.destroy();
      setDrawn(null);
    };
  }, [key]);

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
