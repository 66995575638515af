import type { CaseSummary } from '../../db/answers.ts';
import type { OpenUnit } from '../bench/BenchContext.ts';
import { StatusMark } from '../look/StatusMark.tsx';
import { hrefOf } from '../route/route.ts';
import { sayMany } from '../values/sayMany.ts';
import { sayDay, sayInstant } from './sayCase.ts';

/** What can be done with a case of the list. */
export interface CaseActions {
  onOpen(one: CaseSummary): void;
  onCopy(one: CaseSummary): void;
  onWrite(one: CaseSummary): void;
  onRemove(one: CaseSummary): void;
}

interface Props extends CaseActions {
  readonly one: CaseSummary;
  /** As it is open here; left out where it is not. */
  readonly open: OpenUnit | undefined;
}

/** One case: its number leads to the case file, its title to the bench. */
export function CaseRow({ one, open, onOpen, onCopy, onWrite, onRemove }: Props) {
  const serial = one.numbers.find(({ says }) => says === 'serial number');
  const title = one.title === '' ? 'untitled unit' : one.title;
  return (
    <li className="case-row">
      <div className="case-number">
        <a href={hrefOf({ screen: 'case', sheet: one.sheet })} aria-label={`Case file ${one.number}: ${title}`}>
          {one.number}
        </a>
        <span>{sayDay(one.openedOn)}</span>
      </div>
      <div>
        <button type="button" className="link case-title" onClick={() => onOpen(one)}>
          {title}
        </button>
        {one.kind === 'planned' && <span className="tag">planned build</span>}
        {open !== undefined && <span className="tag">open{open.unsaved ? ', not saved' : ''}</span>}
        <span className="sheet-detail">
          {[
            one.customer === '' ? null : `for ${one.customer}`,
            one.lookedBy === '' ? null : `looked at by ${one.lookedBy}`,
            serial === undefined ? null : `serial number ${serial.text}`,
            sayMany(one.observations, 'entry', 'entries'),
            one.photos === 0 ? null : sayMany(one.photos, 'photograph'),
            `saved ${sayInstant(one.savedAt)}`,
          ]
            .filter((words) => words !== null)
            .join(' · ')}
        </span>
      </div>
      <div className="case-claim">
        {one.claimed === null ? (
          <span className="soft">nothing claimed</span>
        ) : (
          <>
            {one.status !== null && <StatusMark status={one.status} bare />} <q>{one.claimed}</q>
            {one.status === null && <span className="soft small"> not judged</span>}
          </>
        )}
        {one.honest.length > 0 && <span className="sheet-detail">{one.honest.join(' or ')}</span>}
        {one.word !== null && (
          <span className="sheet-detail word-sign">
            {one.word.by === 'shop' ? 'The shop’s own word' : 'The maker’s decision as told'}: {one.word.decision}
          </span>
        )}
      </div>
      <div className="case-actions no-print">
        <button type="button" className="button plain" aria-label={`Copy ${title}`} onClick={() => onCopy(one)}>
          Copy
        </button>
        <button type="button" className="button plain" aria-label={`Write to a file: ${title}`} onClick={() => onWrite(one)}>
          Write
        </button>
        <button type="button" className="button bare" aria-label={`Remove ${title}`} onClick={() => onRemove(one)}>
          Remove
        </button>
      </div>
    </li>
  );
}
