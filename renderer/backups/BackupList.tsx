import type { Backup } from '../../db/answers.ts';
import { sayInstant } from '../cases/sayCase.ts';
import { sayBytes } from '../values/figures.ts';
import { sayReason, sayState } from './sayBackup.ts';

interface Props {
  readonly backups: readonly Backup[];
  readonly chosen: string | null;
  onChoose(backup: Backup): void;
}

/** Newest first, each with what it holds. */
export function BackupList({ backups, chosen, onChoose }: Props) {
  return (
    <table className="line-table backups-table" aria-label="Backups, the newest first">
      <thead>
        <tr>
          <th scope="col">Made</th>
          <th scope="col">Because</th>
          <th scope="col">It holds</th>
          <th scope="col" className="is-size">
            Size
          </th>
          <th scope="col" className="no-print">
            <span className="unseen">What to do</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {backups.map((one) => (
          <tr key={one.name} className={one.name === chosen ? 'is-picked' : undefined}>
            <th scope="row">{sayInstant(one.at)}</th>
            <td>{sayReason(one.reason)}</td>
            <td className={one.state.kind === 'sound' ? undefined : 'is-unreadable'}>{sayState(one)}</td>
            <td className="is-size">{sayBytes(one.bytes)}</td>
            <td className="no-print">
              {one.state.kind === 'sound' && (
                <button
                  type="button"
                  className="button"
                  aria-label={`What would come back from the backup of ${sayInstant(one.at)}`}
                  onClick={() => onChoose(one)}
                >
                  What would come back
                </button>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
