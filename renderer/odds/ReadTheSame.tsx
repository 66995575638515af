import type { Check, Sheet } from '../../reasoner/index.ts';
import { useBenchActions } from '../bench/BenchContext.ts';
import { nextObservationId, withObservation } from '../bench/sheetEdits.ts';

interface Props {
  readonly check: Check;
  readonly sheet: Sheet;
  /** The order of checks is on its way: the one shown may be answered already. */
  readonly waiting: boolean;
}

/** Of an entry to be read again: that it reads the same. It goes on the sheet as a second reading. */
export function ReadTheSame({ check, sheet, waiting }: Props) {
  const { edit } = useBenchActions();
  const last = sheet.observations.findLast(({ id }) => check.again.includes(id));
  if (last === undefined) return null;
  return (
    <button
      type="button"
      className="button"
      title="Enters the reading a second time"
      aria-disabled={waiting}
      onClick={() => {
        if (!waiting) edit((now) => withObservation({ ...last, id: nextObservationId(now) })(now));
      }}
    >
      It reads the same
    </button>
  );
}
