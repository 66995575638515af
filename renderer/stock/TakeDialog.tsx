import { type FormEvent, useState } from 'react';
import type { KeptStockLine } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { whoLooks } from '../bench/useWho.ts';
import { desk } from '../bridge/desk.ts';
import { ModalBox } from '../look/ModalBox.tsx';
import { TroubleNote } from '../look/TroubleNote.tsx';

/** So many are taken off the shelf. */
export function TakeDialog({
  line,
  onTaken,
  onLeave,
}: {
  readonly line: KeptStockLine;
  onTaken(line: KeptStockLine, many: number): void;
  onLeave(): void;
}) {
  const [typed, setTyped] = useState('1');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const many = /^[1-9]\d{0,5}$/.test(typed.trim()) ? Number(typed) : null;
  const take = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (many === null) return;
    const reply = await desk.ask('stock.take', { line: line.id, many, who: whoLooks() });
    if (reply.ok) onTaken(reply.value, many);
    else setTrouble(reply.trouble);
  };
  return (
    <ModalBox title={`Take ${line.name}`} onLeave={onLeave}>
      <form onSubmit={(event) => void take(event)}>
        <label>
          How many, of {line.many}{' '}
          <input
            className="field number"
            inputMode="numeric"
            autoComplete="off"
            // biome-ignore lint/a11y/noAutofocus: the box was asked for, and this is all there is to say in it.
            autoFocus
            value={typed}
            onFocus={(event) => event.target.select()}
            onChange={(event) => setTyped(event.target.value)}
          />
        </label>
        {trouble !== null && <TroubleNote lead="None was taken." trouble={trouble} />}
        <div className="actions">
          <button type="submit" className="button main" disabled={many === null}>
            Take
          </button>
          <button type="button" className="button" onClick={onLeave}>
            Cancel
          </button>
        </div>
      </form>
    </ModalBox>
  );
}
