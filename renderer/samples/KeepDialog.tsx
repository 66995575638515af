import { type FormEvent, useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Observation, PartId } from '../../reasoner/index.ts';
import { useWho } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { RefField } from '../edit/RefField.tsx';
import { ModalBox } from '../look/ModalBox.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { useLengthUnit } from '../look/useLengthUnit.ts';
import { sayObservation } from '../values/sayings.ts';
import type { OfCase } from './ofCase.ts';

/** What was seen of a slot is kept as samples of a part: the one that is left, or one that is found by its name or number. */
export function KeepDialog(
  props: OfCase & {
    readonly entries: readonly Observation[];
    readonly settled: PartId | null;
    onKept(part: PartId, many: number): void;
  },
) {
  const { sheet, version, slot, entries } = props;
  const words = useWords();
  const [unit] = useLengthUnit();
  const [who, setWho] = useWho();
  const [part, setPart] = useState(props.settled);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (part === null) return;
    const reply = await desk.ask('samples.keep', { sheet: sheet.id, version, slot, part, who });
    if (reply.ok) props.onKept(part, reply.value.fresh + reply.value.same);
    else setTrouble(reply.trouble);
  };
  return (
    <ModalBox title={`Samples: ${words.slotName(slot)}`} className="samples-box" onLeave={props.onLeave}>
      <form onSubmit={(event) => void keep(event)} noValidate>
        <div className="samples-fields">
          <div>
            <span className="small soft">Of which part</span>
            <RefField
              label="Part"
              list="parts"
              slot={slot}
              value={part}
              none="name or number"
              onPick={(id) => setPart(id as PartId)}
              onClear={() => setPart(null)}
            />
          </div>
          <label>
            Who <input className="field" maxLength={200} value={who} onChange={({ target }) => setWho(target.value)} />
          </label>
        </div>
        <ul className="samples-entries">
          {entries.map((entry) => (
            <li key={entry.id}>{sayObservation(words.feature(entry.feature), entry, unit)}</li>
          ))}
        </ul>
        <p className="small soft">
          The atlas is not changed by it. What was kept of this slot of the case before and says otherwise is taken out.
        </p>
        {trouble !== null && <TroubleNote lead="Nothing was kept." trouble={trouble} />}
        <div className="actions">
          <button type="submit" className="button main" disabled={part === null}>
            Keep them
          </button>
          <button type="button" className="button" onClick={props.onLeave}>
            Cancel
          </button>
        </div>
      </form>
    </ModalBox>
  );
}
