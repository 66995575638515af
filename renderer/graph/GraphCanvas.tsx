import type Cytoscape from 'cytoscape';
import type { Core } from 'cytoscape';
import { useEffect, useRef, useState } from 'react';
import { onThemeChange } from '../look/theme.ts';
import type { ConflictGraph } from './conflictGraph.ts';
import { graphLook } from './graphLook.ts';

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
  const [drawn, setDrawn] = useState<Core | null>(null);
  const pick = useRef(onPick);
  pick.current = onPick;

  useEffect(() => {
    const container = box.current;
    if (container === null) return;
    let core: Core | null = null;
    let left = false;
    void import('cytoscape').then(({ default: cytoscape }) => {
      // A graph that is no longer wanted must not be drawn at all: destroying it would empty the box of its successor too.
      if (left) return;
      const made = drawIn(cytoscape, container, graph);
      core = made;
      made.on('tap', 'node', (event) => pick.current(event.target.id()));
      made.on('mouseover', 'node', () => {
        container.style.cursor = 'pointer';
      });
      made.on('mouseout', 'node', () => {
        container.style.cursor = '';
      });
      setDrawn(made);
    });
    const resized = new ResizeObserver(() => core !== null && toWidth(core, graph, container));
    resized.observe(container);
    const unheard = onThemeChange(() => {
      core?.style(graphLook(container));
      // At once, not at the next frame: paper does not wait for one.
      core?.forceRender();
    });
    return () => {
      left = true;
      resized.disconnect();
      unheard();
      core?.destroy();
      setDrawn(null);
    };
  }, [graph]);

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

function drawIn(cytoscape: typeof Cytoscape, container: HTMLElement, graph: ConflictGraph): Core {
  keepOutOwnStyles();
  container.style.height = `${graph.height}px`;
  const core = cytoscape({
    container,
    style: graphLook(container),
    elements: {
      nodes: graph.nodes.map(({ x, y, ...data }) => ({ data: { ...data }, position: { x, y } })),
      edges: graph.edges.map((edge) => ({ data: { ...edge, kind: edge.source.split(':')[0] } })),
    },
    layout: { name: 'preset', fit: false },
    userZoomingEnabled: false,
    userPanningEnabled: false,
    boxSelectionEnabled: false,
    autoungrabify: true,
    autounselectify: true,
  });
  toWidth(core, graph, container);
  return core;
}

const takenId = '__________cytoscape_stylesheet';

/**
 * cytoscape would add a <style> element, which the content security policy refuses; it leaves it be when its id is taken.
 * The one rule in it (position: relative) is in graph.css.
 */
export function keepOutOwnStyles(): void {
  if (document.getElementById(takenId) === null) document.head.appendChild(document.createElement('meta')).id = takenId;
}

/** Fills the width there is, between a legible smallest scale and half as large again. */
function toWidth(core: Core, graph: ConflictGraph, container: HTMLElement): void {
  if (core.destroyed() || container.clientWidth === 0) return;
  const scale = Math.min(1.3, Math.max(0.6, container.clientWidth / graph.width));
  container.style.height = `${Math.ceil(graph.height * scale)}px`;
  core.resize();
  core.viewport({ zoom: scale, pan: { x: 0, y: 0 } });
}
