import type { Core, CytoscapeOptions, ElementsDefinition, StylesheetJson } from 'cytoscape';
import { type RefObject, useEffect, useRef, useState } from 'react';
import { onThemeChange } from '../look/theme.ts';

export interface Drawing {
  /** What is drawn is drawn anew when this is another. */
  readonly key: unknown;
  /** In the graph's own units. */
  readonly width: number;
  readonly height: number;
  /** How much larger than its own units it may become where there is room. */
  readonly largest: number;
  /** Every node with the place it has. */
  elements(): ElementsDefinition;
  /** Read again when day turns to night. */
  look(container: HTMLElement): StylesheetJson;
  /** What the drawing answers to. */
  wire(core: Core): void;
}

/** Below this scale the words of a graph cannot be read. */
const smallest = 0.6;

/** A graph is drawn in a moment when nothing else is to be done, or after so long, ms. */
const patience = 400;

/** Draws in the box by cytoscape at fixed places, as wide as the box; null until it is drawn. */
export function useDrawing(box: RefObject<HTMLDivElement | null>, drawing: Drawing): Core | null {
  const [drawn, setDrawn] = useState<Core | null>(null);
  const newest = useRef(drawing);
  newest.current = drawing;
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` says when it is another drawing.
  useEffect(() => {
    const container = box.current;
    if (container === null) return;
    const { width, height, largest, look } = newest.current;
    let core: Core | null = null;
    const stop = new AbortController();
    const toWidth = () => {
      if (core === null || core.destroyed() || container.clientWidth === 0) return;
      const scale = Math.min(largest, Math.max(smallest, container.clientWidth / width));
      container.style.height = `${Math.ceil(height * scale)}px`;
      core.resize();
      core.viewport({ zoom: scale, pan: { x: 0, y: 0 } });
    };
    const draw = (cytoscape: (options: CytoscapeOptions) => Core) => {
      if (core !== null) return;
      keepOutOwnStyles();
      container.style.height = `${height}px`;
      const made = cytoscape({
        container,
        style: look(container),
        elements: newest.current.elements(),
        layout: { name: 'preset', fit: false },
        userZoomingEnabled: false,
        userPanningEnabled: false,
        boxSelectionEnabled: false,
        autoungrabify: true,
        autounselectify: true,
      });
      core = made;
      newest.current.wire(made);
      toWidth();
      setDrawn(made);
    };
    // What says the same in words is on the screen first. Paper does not wait.
    void import('cytoscape').then(({ default: cytoscape }) => {
      // A graph that is no longer wanted must not be drawn at all: destroying it would empty the box of its successor too.
      if (stop.signal.aborted) return;
      const idle = requestIdleCallback(() => draw(cytoscape), { timeout: patience });
      stop.signal.addEventListener('abort', () => cancelIdleCallback(idle));
      window.addEventListener('beforeprint', () => draw(cytoscape), { signal: stop.signal });
    });
    const resized = new ResizeObserver(toWidth);
    resized.observe(container);
    const unheard = onThemeChange(() => {
      core?.style(look(container));
      // At once, not at the next frame: paper does not wait for one.
      core?.forceRender();
    });
    return () => {
      stop.abort();
      resized.disconnect();
      unheard();
      core?.destroy();
      setDrawn(null);
    };
  }, [drawing.key]);
  return drawn;
}

const takenId = '__________cytoscape_stylesheet';

/**
 * cytoscape would add a <style> element, which the content security policy refuses; it leaves it be when its id is taken.
 * The one rule in it (position: relative) is in graph.css.
 */
function keepOutOwnStyles(): void {
  if (document.getElementById(takenId) === null) document.head.appendChild(document.createElement('meta')).id = takenId;
}
