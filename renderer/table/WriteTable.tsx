import { useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { TableKind } from '../../electron/bridge/table-calls.ts';
import type { SlotId } from '../../reasoner/index.ts';
import { useWords } from '../bridge/WordsContext.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { asId } from '../route/asId.ts';
import { sayMany } from '../values/sayMany.ts';
import { saveTable } from './tableFile.ts';

/** The atlas, or what is found in it, as a spreadsheet that can be edited and brought in again. */
export function WriteTable() {
  const words = useWords();
  const [kind, setKind] = useState<TableKind>('parts');
  const [slot, setSlot] = useState<SlotId | null>(null);
  const [found, setFound] = useState('');
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [busy, setBusy] = useState(false);
  const write = async (format: 'xlsx' | 'csv') => {
    setBusy(true);
    setTrouble(null);
    setSaid('Writing it…');
    const saved = await saveTable({ kind, slot: kind === 'models' ? null : slot, found: found.trim(), format });
    setBusy(false);
    setSaid(saved.ok ? `Written: ${saved.value.name}, ${sayMany(saved.value.rows, 'row')}.` : '');
    if (!saved.ok) setTrouble(saved.trouble);
  };
  return (
    <section aria-labelledby="table-out" className="table-out">
      <h2 id="table-out">Out of the atlas</h2>
      <p className="soft">
        Edited and brought in again, it changes only the cells that were edited. The last column, which is hidden in a workbook, tells which
        those are: leave it as it is.
      </p>
      <div className="table-fields">
        <label>
          Rows
          <select className="field" value={kind} onChange={(event) => setKind(event.target.value as TableKind)}>
            <option value="parts">a part each</option>
            <option value="models">a model each, with its slots</option>
            <option value="facts">a fact each</option>
          </select>
        </label>
        {kind !== 'models' && (
          <label>
            Of
            <select
              className="field"
              value={slot ?? ''}
              onChange={(event) => setSlot(event.target.value === '' ? null : asId<SlotId>(event.target.value))}
            >
              <option value="">all kinds of part</option>
              {words.slots.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        )}
        <label>
          Where this is found
          <input
            className="field"
            value={found}
            maxLength={300}
            placeholder="all of them"
            onChange={(event) => setFound(event.target.value)}
          />
        </label>
      </div>
      <p className="table-ways">
        <button type="button" className="button" disabled={busy} onClick={() => void write('xlsx')}>
          Write a workbook (.xlsx)
        </button>
        <button type="button" className="button" disabled={busy} onClick={() => void write('csv')}>
          Write a CSV
        </button>
      </p>
      <p role="status" className="soft">
        {said}
      </p>
      {trouble !== null && <TroubleNote lead="Nothing was written." trouble={trouble} />}
    </section>
  );
}
