import type { SheetSummary } from '../../db/answers.ts';
import type { OpenUnit } from '../bench/BenchContext.ts';
import { sayMany } from '../values/sayMany.ts';

/** A sample of a pack; saved, it becomes a case. */
interface Props {
  readonly summary: SheetSummary;
  /** As it is open here; left out where it is not. */
  readonly open: OpenUnit | undefined;
  onOpen(): void;
  onCopy(): void;
  onWrite(): void;
}

export function SheetRow({ summary, open, onOpen, onCopy, onWrite }: Props) {
  const title = summary.title === '' ? 'untitled unit' : summary.title;
  return (
    <li className="sheet-row">
      <div>
        <button type="button" className="link" onClick={onOpen}>
          {title}
        </button>
        {summary.kind === 'planned' && <span className="tag">planned build</span>}
        {open !== undefined && <span className="tag">open{open.unsaved ? ', not saved' : ''}</span>}
        <span className="sheet-detail">
          {summary.kind === 'planned'
            ? summary.claimed !== null && `to be sold as “${summary.claimed}”`
            : `${summary.claimed === null ? 'nothing claimed' : `offered as “${summary.claimed}”`} · ${sayMany(summary.observations, 'entry', 'entries')}`}
        </span>
      </div>
      <button type="button" className="button plain" aria-label={`Copy ${title}`} onClick={onCopy}>
        Copy
      </button>
      <button type="button" className="button plain" aria-label={`Write to a file: ${title}`} onClick={onWrite}>
        Write to a file
      </button>
    </li>
  );
}
