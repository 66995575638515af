import type { PaperPlan } from './TreePaper.tsx';

interface Props {
  /** What became of the last file. */
  readonly said: string;
  onSave(as: 'svg' | 'png'): void;
  onPrint(plan: PaperPlan): void;
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
      <button type="button" className="button" onClick={() => onPrint('one page')}>
        Print on one page
      </button>
      <button type="button" className="button" onClick={() => onPrint('tiles')}>
        Print tiled
      </button>
    </span>
  );
}
