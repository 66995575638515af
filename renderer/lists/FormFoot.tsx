import type { Trouble } from '../../electron/bridge/contract.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { hrefOf } from '../route/route.ts';

interface Props {
  /** Where the shop has not said in what money: what of; null where it has. */
  readonly noMoney: string | null;
  readonly fault: string | null;
  readonly trouble: Trouble | null;
  /** What the button says that saves. */
  readonly save: string;
  onLeave(): void;
}

/** Below the fields of something on a list of the shop's: what is wrong with them, and the buttons. */
export function FormFoot({ noMoney, fault, trouble, save, onLeave }: Props) {
  return (
    <>
      {noMoney !== null && (
        <p className="small soft">
          In what money {noMoney} is said under <a href={hrefOf({ screen: 'settings' })}>The shop</a>.
        </p>
      )}
      {fault !== null && (
        <p className="trouble" role="alert">
          {fault}
        </p>
      )}
      {trouble !== null && <TroubleNote lead="Not saved." trouble={trouble} />}
      <div className="actions">
        <button type="submit" className="button main">
          {save}
        </button>
        <button type="button" className="button" onClick={onLeave}>
          Cancel
        </button>
      </div>
    </>
  );
}
