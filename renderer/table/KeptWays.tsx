import { useState } from 'react';
import type { Trouble } from '../../electron/bridge/contract.ts';
import { desk } from '../bridge/desk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import type { TableWork } from './useTable.ts';

/** Ways of reading a table, kept under a name: this one kept, another taken, one forgotten. */
export function KeptWays({ table }: { readonly table: TableWork }) {
  const { matched, matching } = table;
  const [name, setName] = useState(matched?.by ?? '');
  const [said, setSaid] = useState('');
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  if (matched === null || matching === null) return null;
  const keep = async () => {
    const reply = await desk.ask('table.keep', { name: name.trim(), headings: [...matched.headings], matching });
    setTrouble(reply.ok ? null : reply.trouble);
    setSaid(reply.ok ? `Kept: “${name.trim()}”. A table with these headings is read so next time.` : '');
  };
  const forget = async (which: string) => {
    const reply = await desk.ask('table.forget', { name: which });
    setTrouble(reply.ok ? null : reply.trouble);
    setSaid(reply.ok ? `“${which}” is no longer kept.` : '');
    if (reply.ok) await table.match({ template: '' });
  };
  return (
    <section className="table-kept" aria-labelledby="table-kept">
      <h2 id="table-kept" className="head">
        For next time
      </h2>
      <form
        className="table-fields"
        onSubmit={(event) => {
          event.preventDefault();
          if (name.trim() !== '') void keep();
        }}
      >
        <label>
          Keep how this is read, as
          <input className="field" value={name} maxLength={200} onChange={(event) => setName(event.target.value)} />
        </label>
        <button type="submit" className="button" disabled={name.trim() === ''}>
          Keep it
        </button>
        <span role="status" className="soft">
          {said}
        </span>
      </form>
      {matched.templates.length > 0 && (
        <ul className="table-ways-kept">
          {matched.templates.map((one) => (
            <li key={one.name}>
              “{one.name}”{one.fits ? '' : ', which knows other headings'}{' '}
              {one.name !== matched.by && (
                <button type="button" className="button plain" onClick={() => void table.match({ template: one.name })}>
                  Read it so
                </button>
              )}
              <button type="button" className="button bare" onClick={() => void forget(one.name)}>
                Forget “{one.name}”
              </button>
            </li>
          ))}
        </ul>
      )}
      {trouble !== null && <TroubleNote lead="Nothing was kept or forgotten." trouble={trouble} />}
    </section>
  );
}
