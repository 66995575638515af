import type { Trouble } from '../../electron/bridge/contract.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { sayWhen } from '../values/sayWhen.ts';

interface Props {
  readonly title: string;
  readonly trouble: Trouble | null;
  /** Newest first; what each says otherwise than the one before. */
  readonly states: readonly { readonly at: string; readonly who: string; readonly says: string }[];
  onLeave(): void;
}

/** What became of something of a list, newest first. */
export function HistoryDialog({ title, trouble, states, onLeave }: Props) {
  return (
    <ModalBox title={title} className="shop-dialog" onLeave={onLeave}>
      {trouble !== null && <TroubleNote lead="Its history could not be read." trouble={trouble} />}
      <ol className="shop-history">
        {states.map(({ at, who, says }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: states stand in their order, and two may be of one instant.
          <li key={index}>
            <span className="small soft">
              {sayWhen(at)}, {who || 'nobody said who'}
            </span>
            <br />
            {says}
          </li>
        ))}
      </ol>
      <div className="actions">
        <button type="button" className="button main" onClick={onLeave}>
          Close
        </button>
      </div>
    </ModalBox>
  );
}
