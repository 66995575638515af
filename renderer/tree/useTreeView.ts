import { useCallback, useState } from 'react';
import type { Overlays } from './treeLayout.ts';
import type { Level, TreeKey, Unfolded } from './treeNode.ts';

/** Zoom goes in steps: first the whole span of years, then nearer and with more unfolded. */
export const stops: readonly { readonly level: Level; readonly scale: number }[] = [
  { level: 'makers', scale: 1 },
  { level: 'families', scale: 1 },
  { level: 'generations', scale: 1 },
  { level: 'models', scale: 1 },
  { level: 'models', scale: 1.8 },
  { level: 'parts', scale: 1.8 },
  { level: 'parts', scale: 3 },
];
export const firstStop = stops.findIndex(({ level }) => level === 'families');

interface View {
  readonly stop: number;
  readonly byHand: ReadonlyMap<TreeKey, boolean>;
  readonly overlays: Overlays;
}

const opening: View = {
  stop: firstStop,
  byHand: new Map(),
  overlays: { patterns: true, tradeNames: true, cores: false, housings: false },
};

/** Kept while the window is open, so that coming back shows the tree as it was left. */
let left: View = opening;

/** How much of the tree is unfolded, how near, and what lies over it. Zooming forgets what was folded by hand. */
export function useTreeView() {
  const [view, setView] = useState(left);
  const change = useCallback((next: (now: View) => View) => {
    setView((now) => {
      left = next(now);
      return left;
    });
  }, []);
  const stop = stops[view.stop] ?? { level: 'families' as const, scale: 1 };
  const unfolded: Unfolded = { level: stop.level, byHand: view.byHand };
  return {
    unfolded,
    scale: stop.scale,
    stop: view.stop,
    overlays: view.overlays,
    zoomTo: (next: number) => change((now) => ({ ...now, stop: Math.min(Math.max(next, 0), stops.length - 1), byHand: new Map() })),
    showLevel: (level: Level) => change((now) => ({ ...now, stop: stops.findIndex((one) => one.level === level), byHand: new Map() })),
    fold: (keys: readonly TreeKey[], open: boolean) =>
      change((now) => ({ ...now, byHand: new Map([...now.byHand, ...keys.map((key) => [key, open] as const)]) })),
    switchOverlay: (name: keyof Overlays) => change((now) => ({ ...now, overlays: { ...now.overlays, [name]: !now.overlays[name] } })),
  };
}

export type TreeView = ReturnType<typeof useTreeView>;
