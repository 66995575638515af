import type { Overlays } from './treeLayout.ts';
import { type Level, levels } from './treeNode.ts';
import { stops, type TreeView } from './useTreeView.ts';

const levelNames: Record<Level, string> = {
  makers: 'Makers',
  families: 'Families',
  generations: 'Generations',
  models: 'Models',
  parts: 'Parts',
};

const overlayNames: Record<keyof Overlays, string> = {
  patterns: 'pattern lines',
  tradeNames: 'trade names',
  cores: 'shared core parts',
  housings: 'shared housings',
};

interface Props {
  readonly view: TreeView;
  onZoom(stop: number): void;
  onLevel(level: Level): void;
}

/** How near, and what lies over the tree. */
export function TreeTools({ view, onZoom, onLevel }: Props) {
  return (
    <div className="tree-tools">
      <fieldset className="tree-levels">
        <legend className="unseen">Show down to</legend>
        {levels.map((level) => (
          <label key={level}>
            <input type="radio" name="tree-level" checked={view.unfolded.level === level} onChange={() => onLevel(level)} />
            <span>{levelNames[level]}</span>
          </label>
        ))}
      </fieldset>
      <span className="tree-zoom">
        <button type="button" className="button" aria-label="Zoom out" disabled={view.stop === 0} onClick={() => onZoom(view.stop - 1)}>
          −
        </button>
        <button
          type="button"
          className="button"
          aria-label="Zoom in"
          disabled={view.stop === stops.length - 1}
          onClick={() => onZoom(view.stop + 1)}
        >
          +
        </button>
      </span>
      <fieldset className="tree-overlays">
        <legend className="unseen">Show also</legend>
        {(Object.keys(overlayNames) as (keyof Overlays)[]).map((name) => (
          <label key={name}>
            <input type="checkbox" checked={view.overlays[name]} onChange={() => view.switchOverlay(name)} /> {overlayNames[name]}
          </label>
        ))}
      </fieldset>
    </div>
  );
}
