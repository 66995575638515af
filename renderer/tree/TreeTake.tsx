import type { Paper } from './paperPlan.ts';

interface Props {
  /** What became of the last file. */
  readonly said: string;
  onSave(as: 'svg' | 'png'): void;
  onPrint(paper: Paper): void;
}

/** The drawing taken away: as a file, or on paper. */
export function TreeTake({ said, onSave, onPrint }: Props) {
  return (
    <span className="tree-take">
      <span className="small soft" role="status">
        {said}
      </span>
      <button type="button" className="button" onClick={() => onSave('svg')}>
        Save SVG
      </button>
      <button type="button" className="button" onClick={() => onSave('png')}>
        Save PNG
      </button>
      <button type="button" className="button" onClick={() => onPrint('A4')}>
        Print on A4
      </button>
      <button type="button" className="button" onClick={() => onPrint('A3')}>
        Print on A3
      </button>
    </span>
  );
}
